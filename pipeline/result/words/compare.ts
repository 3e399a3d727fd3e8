/** Two results side by side, in words that never rank what is too close. */
import { catalogue } from '../../language.ts';

/** In what way one result is ahead of another. */
export type Ahead = 'time' | 'distance' | 'speed' | 'acceleration' | 'deceleration';

const BETTER = {
  time: 'is quicker',
  distance: 'stops shorter',
  speed: 'is faster',
  acceleration: 'accelerates harder',
  deceleration: 'brakes harder',
} as const satisfies Record<Ahead, string>;

/** Verb and comparative, between which German sets the amount. */
const BESSER = {
  time: ['ist', 'schneller'],
  distance: ['steht', 'früher'],
  speed: ['ist', 'schneller'],
  acceleration: ['beschleunigt', 'stärker'],
  deceleration: ['bremst', 'stärker'],
} as const satisfies Record<Ahead, readonly [string, string]>;

export const compareWords = catalogue({
  en: {
    /** `North is quicker by 0.47 s`, with the other named where it is not clear. */
    ahead: (name: string, way: Ahead, amount: string, other?: string) =>
      `${name} ${BETTER[way]} by ${amount}${other === undefined ? '' : ` than ${other}`}`,
    figures: (a: string, b: string) => `${a} against ${b}`,
    notRanked: (a: string, figureA: string, b: string, figureB: string) =>
      `${a} ${figureA}, ${b} ${figureB}: not ranked, because no uncertainty can be stated.`,
    tooClose: (a: string, figureA: string, b: string, figureB: string, apart: string, uncertainty: string) =>
      `${a} ${figureA} and ${b} ${figureB} are too close to call: ${apart} apart, uncertain by ${uncertainty}.`,
    unequalCounts: (a: number, b: number) =>
      `A best of ${a} stands against a best of ${b}: more attempts alone make a best better.`,
    /** Where a verdict stands. */
    tooCloseToCall: 'too close to call',
    tooFewToTell: 'too few to tell',
    notRankedVerdict: 'not ranked',
    /** Of a test or a method: its name, in quotation marks where it needs them. */
    isAhead: (name: string) => `${name} is ahead`,
    /** Under the medians of two tests that may not be ranked. */
    testsNotRanked: (
      first: string,
      figureA: string,
      second: string,
      figureB: string,
      apart: string,
      why: string,
    ) => `${first} (${figureA}) and ${second} (${figureB}), ${apart} apart, are not to be ranked; ${why}.`,
    triedOnce: 'tried once only',
    mediansOf: (n: number, other: number) => `medians of ${n} and ${other}`,
  },
  de: {
    ahead: (name, way, amount, other) => {
      const [verb, better] = BESSER[way];
      return `${name} ${verb} um ${amount} ${better}${other === undefined ? '' : ` als ${other}`}`;
    },
    figures: (a, b) => `${a} gegenüber ${b}`,
    notRanked: (a, figureA, b, figureB) =>
      `${a} ${figureA}, ${b} ${figureB}: ohne Rangfolge, weil sich keine Unsicherheit angeben lässt.`,
    tooClose: (a, figureA, b, figureB, apart, uncertainty) =>
      `${a} mit ${figureA} und ${b} mit ${figureB} liegen zu eng beieinander für eine Rangfolge: Abstand ${apart}, Unsicherheit ${uncertainty}.`,
    unequalCounts: (a, b) =>
      `Hier steht der beste von ${a} Versuchen gegen den besten von ${b}: Schon mehr Versuche allein verbessern einen Bestwert.`,
    tooCloseToCall: 'zu eng für eine Rangfolge',
    tooFewToTell: 'zu wenige für ein Urteil',
    notRankedVerdict: 'ohne Rangfolge',
    isAhead: name => `${name} liegt vorn`,
    testsNotRanked: (first, figureA, second, figureB, apart, why) =>
      `${first} (${figureA}) und ${second} (${figureB}), Abstand ${apart}: keine Rangfolge; ${why}.`,
    triedOnce: 'nur ein einziger Versuch',
    mediansOf: (n, other) => `Mediane aus ${n} und ${other} Versuchen`,
  },
});
