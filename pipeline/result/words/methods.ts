/** Launch methods, or both ways along a road, against each other. Names come in, in quotation marks where a sentence asks for them. */
import { catalogue, counted, listed, quotedName } from '../../language.ts';

/** What two methods should have shared and did not. */
type Unlike = 'direction' | 'launch method' | 'surface';

const name = (text: string): string => quotedName(text, 'en');
const names = (all: readonly string[]): string => listed(all.map(name), 'en');
const namen = (alle: readonly string[]): string =>
  listed(
    alle.map(text => quotedName(text, 'de')),
    'de',
  );

const NICHT_GLEICH: Readonly<Record<Unlike, (a: string, b: string) => string>> = {
  direction: (a, b) => `${a} und ${b} wurden nicht in denselben Richtungen gefahren`,
  'launch method': (a, b) => `${a} und ${b} wurden nicht mit denselben Startmethoden gefahren`,
  surface: (a, b) => `${a} und ${b} wurden nicht bei demselben Fahrbahnzustand gefahren`,
};

export const methodsWords = catalogue({
  en: {
    otherWay: (amount: string) => `${amount} the other way`,
    below: (digits: string) => `below ${digits}`,
    against: (a: number, b: number) => `${a} against ${b}`,
    apart: (ahead: string, between: readonly [string, string], won: number, pairings: number) =>
      `${ahead}, between ${between[0]} and ${between[1]}: ahead in ${won} of ${pairings} pairings of their attempts.`,
    tooClose: (a: string, b: string, difference: string, low: string, high: string) =>
      `${name(a)} and ${name(b)} are too close to call: ${difference} between their medians, anything from ${low} to ${high}.`,
    tooFew: (a: string, b: string, counts: string, difference: string, often: string) =>
      `Too few to tell between ${name(a)} and ${name(b)}, ${counts}: ${difference} between their medians, and chance alone would part so few completely ${often}.`,
    tooManyToCount: (a: string, b: string, most: number) =>
      `${name(a)} and ${name(b)} are not ranked: more than ${most} attempts of one are not counted out.`,
    noUncertainty: (a: string, b: string) =>
      `${name(a)} and ${name(b)} are not ranked: no uncertainty can be stated.`,
    everyTime: 'every time',
    oneTimeIn: (times: string) => `one time in ${times}`,
    tooOften: (often: string, pairs: number) => `${often}, too often where ${pairs} pairs are compared`,
    oneAfterOther: (first: string, second: string) =>
      `Every attempt of ${name(first)} came before those of ${name(second)}: heat, wind and whatever else changed with the hour may be part of their difference.`,
    fewTurns: (a: string, b: string, turns: number) =>
      `${name(a)} and ${name(b)} took turns only ${turns} times: heat, wind and whatever else changed with the hour may be part of their difference.`,
    unlike: (a: string, b: string, what: Unlike) =>
      `${name(a)} and ${name(b)} did not share every ${what}: that may be part of their difference.`,
    /** A finding: no full stop, a capital is set where it begins a line. */
    findingApart: (ahead: string, low: string, high: string) => `${ahead}, between ${low} and ${high}`,
    someBehind: (
      behind: readonly string[],
      first: string,
      others: readonly string[],
      why: 'too few' | 'too close',
    ) =>
      `${names(behind)} ${counted(behind.length, 'is', 'are')} behind ${name(first)}; between ${names([first, ...others])} it is ${why === 'too few' ? 'too few to tell' : 'too close to call'}`,
    allTooFew: (all: readonly string[], counts: readonly string[]) =>
      `Too few to tell ${names(all)} apart: ${counts.length === 2 ? counts.join(' against ') : `${listed(counts, 'en')} attempts`}`,
    allNotRanked: (all: readonly string[]) => `${names(all)} are not ranked`,
    allTooClose: (all: readonly string[]) => `Between ${names(all)} it is too close to call`,
    /** On a plate, without quotation marks. */
    shortBehind: (behind: readonly string[], first: string) =>
      `${listed(behind, 'en')} ${counted(behind.length, 'is', 'are')} behind ${first}`,
    shortTooFew: (counts: readonly string[]) =>
      `Too few to tell: ${counts.length === 2 ? counts.join(' against ') : `${listed(counts, 'en')} attempts`}`,
    shortNotRanked: 'Not ranked',
    shortTooClose: 'Too close to call',
    rankedWhere: (level: string) =>
      `Ranked only where chance alone would part the attempts so unevenly less than ${level} of the time (Mann and Whitney’s test, exact) and the difference exceeds what the timing can tell.`,
    severalPairs: (pairs: number) => `${pairs} pairs were compared; chances are raised for that (Holm).`,
    betweenCovers: '“Between” covers about 95 %, scatter and timing together.',
  },
  de: {
    otherWay: amount => `${amount} umgekehrt`,
    below: digits => `unter ${digits}`,
    against: (a, b) => `${a} gegen ${b}`,
    apart: (ahead, between, won, pairings) =>
      `${ahead}, zwischen ${between[0]} und ${between[1]}: vorn in ${won} von ${pairings} Paarungen ihrer Versuche.`,
    tooClose: (a, b, difference, low, high) =>
      `${namen([a, b])} liegen zu eng beieinander für eine Rangfolge: ${difference} zwischen ihren Medianen, möglich ist alles von ${low} bis ${high}.`,
    tooFew: (a, b, counts, difference, often) =>
      `Zu wenige Versuche für ein Urteil zwischen ${namen([a, b])}, ${counts}: ${difference} zwischen ihren Medianen, und der bloße Zufall trennt so wenige ${often} vollständig.`,
    tooManyToCount: (a, b, most) =>
      `${namen([a, b])} bleiben ohne Rangfolge: Mehr als ${most} Versuche einer Methode werden nicht ausgezählt.`,
    noUncertainty: (a, b) =>
      `${namen([a, b])} bleiben ohne Rangfolge: Es lässt sich keine Unsicherheit angeben.`,
    everyTime: 'jedes Mal',
    oneTimeIn: times => `in einem von ${times} Fällen`,
    tooOften: (often, pairs) => `${often}, zu oft bei ${pairs} verglichenen Paaren,`,
    oneAfterOther: (first, second) =>
      `Alle Versuche mit ${namen([first])} lagen vor denen mit ${namen([second])}: Wärme, Wind und was sich sonst mit der Stunde ändert, kann einen Teil des Unterschieds ausmachen.`,
    fewTurns: (a, b, turns) =>
      `${namen([a, b])} wechselten sich nur ${turns}-mal ab: Wärme, Wind und was sich sonst mit der Stunde ändert, kann einen Teil des Unterschieds ausmachen.`,
    unlike: (a, b, what) =>
      `${NICHT_GLEICH[what](namen([a]), namen([b]))}: Das kann einen Teil des Unterschieds ausmachen.`,
    findingApart: (ahead, low, high) => `${ahead}, zwischen ${low} und ${high}`,
    someBehind: (behind, first, others, why) =>
      `${namen(behind)} ${counted(behind.length, 'liegt', 'liegen')} hinter ${namen([first])}; zwischen ${namen([first, ...others])} ist es ${why === 'too few' ? 'mit zu wenigen Versuchen nicht zu entscheiden' : 'zu eng für eine Rangfolge'}`,
    allTooFew: (all, counts) =>
      `Zu wenige Versuche, um ${namen(all)} zu trennen: ${counts.length === 2 ? counts.join(' gegen ') : listed(counts, 'de')}`,
    allNotRanked: all => `${namen(all)} bleiben ohne Rangfolge`,
    allTooClose: all => `Zwischen ${namen(all)} ist es zu eng für eine Rangfolge`,
    shortBehind: (behind, first) =>
      `${listed(behind, 'de')} ${counted(behind.length, 'liegt', 'liegen')} hinter ${first}`,
    shortTooFew: counts =>
      `Zu wenige für ein Urteil: ${counts.length === 2 ? counts.join(' gegen ') : `${listed(counts, 'de')} Versuche`}`,
    shortNotRanked: 'Ohne Rangfolge',
    shortTooClose: 'Zu eng für eine Rangfolge',
    rankedWhere: level =>
      `Eine Rangfolge gibt es nur, wo der bloße Zufall die Versuche in weniger als ${level} der Fälle so ungleich teilen würde (Test nach Mann und Whitney, exakt) und der Unterschied größer ist als das, was die Zeitnahme auflöst.`,
    severalPairs: pairs =>
      `Verglichen wurden ${pairs} Paare; die Wahrscheinlichkeiten sind dafür angehoben (Holm).`,
    betweenCovers: '„Zwischen“ umfasst rund 95 %, Streuung und Zeitnahme zusammen.',
  },
});
