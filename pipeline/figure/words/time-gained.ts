/** Time gained between two runs over speed. Names of runs come without quotation marks. */
import { catalogue, quotedName } from '../../language.ts';

const en = (name: string): string => quotedName(name, 'en');
const de = (name: string): string => quotedName(name, 'de');

/** A gain that had been there on the way and was gone again. */
export interface CameBack {
  readonly text: string;
  readonly where: string;
  /** The run that had been ahead. */
  readonly ahead: string;
}

export const timeGainedWords = catalogue({
  en: {
    axis: 's later',
    aheadAbove: (name: string) => `above 0: ${en(name)} ahead`,
    aheadBelow: (name: string) => `below 0: ${en(name)} ahead`,
    at: (apart: string, speed: string) => `${apart} at ${speed}`,
    howMuchLater: (behind: string, ahead: string) =>
      `How much later ${en(behind)} reaches each speed than ${en(ahead)}`,
    caption: (ahead: readonly [string, number], behind: readonly [string, number], rule: string) =>
      `Time attempt ${ahead[1]} (${ahead[0]}) gains on attempt ${behind[1]} (${behind[0]}) over speed, ${rule}. Inside the shaded band the difference is smaller than its expanded uncertainty, k = 2.`,
    key: 'Shaded: too close to call.',
    shaded: 'Shaded: too close to call, smaller than its uncertainty, k = 2.',
    counts: (label: string, n: number) => `${label}: ${n} kept attempts.`,
    smoothed: (windows: readonly string[]) => `Speeds smoothed by a line through ${windows.join(' or ')}.`,
    gaps: 'Gaps: the speed stood still.',
    chart: 'Line chart of the time between two runs over speed.',
    run: (name: string, attempt: number, what: string) => `${name}, attempt ${attempt}: ${what}.`,
    notReached: (speed: string) => `${speed} not reached`,
    reached: (time: string, speed: string) => `${time} to ${speed}`,
    laterBy: 'Later by',
    negative: 'Negative: the other run is ahead at that speed.',
    tooClose: (a: string, b: string, where: string, came: CameBack | undefined) =>
      `Between ${en(a)} and ${en(b)} it is too close to call at ${where}${came === undefined ? '' : `, after ${came.text} at ${came.where}`}`,
    tooCloseSentence: (
      title: string,
      came: CameBack | undefined,
      text: string,
      where: string,
      sure: string,
    ) =>
      `${title}${came === undefined ? '' : `, in favour of ${en(came.ahead)} then`}: ${text} apart at ${where}, ${sure}.`,
    differ: (a: string, b: string) => `Where ${en(a)} and ${en(b)} differ`,
    notBothKept: (where: string, text: string, sure: string) =>
      `At ${where} they are ${text} apart, ${sure}; not both are kept, so they are not ranked.`,
    gainsMostBelow: (ahead: string, text: string, behind: string, speed: string) =>
      `${en(ahead)} gains most of its ${text} on ${en(behind)} below ${speed}`,
    gainsLate: (ahead: string, text: string, behind: string, speed: string) =>
      `${en(ahead)} gains ${text} on ${en(behind)} by ${speed}, little of it early`,
    gainSentence: (title: string, where: string, text: string, afterRollout: boolean, sure: string) =>
      `${title}; at ${where} it is ${text} ahead${afterRollout ? ' after the rollout' : ''}, ${sure}.`,
  },
  de: {
    axis: 's später',
    aheadAbove: name => `über 0: ${de(name)} vorn`,
    aheadBelow: name => `unter 0: ${de(name)} vorn`,
    at: (apart, speed) => `${apart} bei ${speed}`,
    howMuchLater: (behind, ahead) =>
      `Wie viel später ${de(behind)} jede Geschwindigkeit erreicht als ${de(ahead)}`,
    caption: (ahead, behind, rule) =>
      `Zeit, die Versuch ${ahead[1]} (${ahead[0]}) gegenüber Versuch ${behind[1]} (${behind[0]}) über der Geschwindigkeit gewinnt, ${rule}. Im getönten Band ist der Unterschied kleiner als seine erweiterte Unsicherheit, k = 2.`,
    key: 'Getönt: zu eng für eine Rangfolge.',
    shaded: 'Getönt: zu eng für eine Rangfolge, kleiner als die Unsicherheit, k = 2.',
    counts: (label, n) => `${label}: ${n} gewertete Versuche.`,
    smoothed: windows => `Geschwindigkeiten geglättet durch eine Gerade über ${windows.join(' oder ')}.`,
    gaps: 'Lücken: Die Geschwindigkeit stand still.',
    chart: 'Liniendiagramm der Zeit zwischen zwei Fahrten über der Geschwindigkeit.',
    run: (name, attempt, what) => `${name}, Versuch ${attempt}: ${what}.`,
    notReached: speed => `${speed} nicht erreicht`,
    reached: (time, speed) => `${time} bis ${speed}`,
    laterBy: 'Später um',
    negative: 'Negativ: Bei dieser Geschwindigkeit liegt die andere Fahrt vorn.',
    tooClose: (a, b, where, came) =>
      `Zwischen ${de(a)} und ${de(b)} ist es bei ${where} zu eng für eine Rangfolge${came === undefined ? '' : `, nach ${came.text} bei ${came.where}`}`,
    tooCloseSentence: (title, came, text, where, sure) =>
      `${title}${came === undefined ? '' : ` zugunsten von ${de(came.ahead)}`}: ${text} Abstand bei ${where}, ${sure}.`,
    differ: (a, b) => `Wo sich ${de(a)} und ${de(b)} unterscheiden`,
    notBothKept: (where, text, sure) =>
      `Bei ${where} liegen sie ${text} auseinander, ${sure}; nicht beide sind gewertet, daher keine Rangfolge.`,
    gainsMostBelow: (ahead, text, behind, speed) =>
      `${de(ahead)} gewinnt ${text} gegenüber ${de(behind)}, das meiste davon unter ${speed}`,
    gainsLate: (ahead, text, behind, speed) =>
      `${de(ahead)} gewinnt bis ${speed} ${text} gegenüber ${de(behind)}, wenig davon am Anfang`,
    gainSentence: (title, where, text, afterRollout, sure) =>
      `${title}; bei ${where} liegt es${afterRollout ? ' nach dem Anrollweg' : ''} ${text} vorn, ${sure}.`,
  },
});
