/** What each published figure is called, and what it is in a sentence. */
import { catalogue } from '../../language.ts';

/** The names of one figure. */
export interface MeasureName {
  /** As a head, such as `Speed at 402 m`. */
  readonly label: string;
  /** In the middle of a sentence, such as `speed at 402 m`. */
  readonly inSentence: string;
  /** One sentence for the methodology page. */
  readonly describes: string;
}

/** The quarter and the eighth of a mile have names; other distances are written as they are. */
export type NamedDistance = {
  readonly m: string;
  readonly mile?: 'quarter' | 'eighth';
  readonly ft?: string;
};

const sameInSentence = (label: string, describes: string): MeasureName => ({
  label,
  inSentence: label,
  describes,
});

const MILES = { quarter: 'a quarter of a mile', eighth: 'an eighth of a mile' } as const;
const overInEnglish = ({ m, mile, ft }: NamedDistance): string =>
  mile !== undefined ? `${MILES[mile]} (${m} m)` : ft !== undefined ? `${ft} ft (${m} m)` : `${m} m`;

const MEILEN = { quarter: 'einer Viertelmeile', eighth: 'einer Achtelmeile' } as const;
const nachStrecke = ({ m, mile, ft }: NamedDistance): string =>
  mile !== undefined ? `${MEILEN[mile]} (${m} m)` : ft !== undefined ? `${ft} ft (${m} m)` : `${m} m`;
const STRECKEN = { quarter: 'eine Viertelmeile', eighth: 'eine Achtelmeile' } as const;
const ueberStrecke = ({ m, mile, ft }: NamedDistance): string =>
  mile !== undefined ? `${STRECKEN[mile]} (${m} m)` : ft !== undefined ? `${ft} ft (${m} m)` : `${m} m`;

/** Numbers come printed: the distance in metres with the language's own decimal sign. */
export const measureWords = catalogue({
  en: {
    toSpeed: (to: string, unit: string, also?: string) =>
      sameInSentence(
        `0–${to} ${unit}`,
        `Time from a standing start to ${to} ${unit}${also === undefined ? '' : ` (${also})`}.`,
      ),
    overDistance: (label: string, distance: NamedDistance) =>
      sameInSentence(label, `Time from a standing start over ${overInEnglish(distance)}.`),
    speedAt: (at: string, distance: NamedDistance): MeasureName => ({
      label: `Speed at ${at}`,
      inSentence: `speed at ${at}`,
      describes: `Speed at the line ${overInEnglish(distance)} after a standing start: the speed at that instant, not a mean over the last metres.`,
    }),
    between: (from: string, to: string, unit: string) =>
      sameInSentence(`${from}–${to} ${unit}`, `Time from ${from} to ${to} ${unit} of a car already rolling.`),
    stopFrom: (from: string, unit: string) =>
      sameInSentence(
        `${from}–0 ${unit}`,
        `Stopping distance from ${from} ${unit} to rest, without any reaction time.`,
      ),
    mfddFrom: (from: string, unit: string): MeasureName => ({
      label: `MFDD from ${from} ${unit}`,
      inSentence: `MFDD from ${from} ${unit}`,
      describes: `Mean fully developed deceleration of a stop from ${from} ${unit}, between 80 % and 10 % of that speed (UN R13-H, annex 3).`,
    }),
    peakAcceleration: {
      label: 'Peak acceleration',
      inSentence: 'peak acceleration',
      describes: 'Highest acceleration of a run that gathers speed.',
    } as MeasureName,
    topSpeed: {
      label: 'Highest speed reached',
      inSentence: 'highest speed reached',
      describes:
        'Highest speed of a run, in one direction and on the road there was: not the highest the car can do.',
    } as MeasureName,
    /** Of a time between two speeds, to tell it from one that starts at rest. */
    rolling: (label: string) => `${label}, rolling`,
  },
  de: {
    toSpeed: (to, unit, also) =>
      sameInSentence(
        `0–${to} ${unit}`,
        `Zeit aus dem Stand auf ${to} ${unit}${also === undefined ? '' : ` (${also})`}.`,
      ),
    overDistance: (label, distance) =>
      sameInSentence(label, `Zeit aus dem Stand über ${ueberStrecke(distance)}.`),
    speedAt: (at, distance) => ({
      label: `Geschwindigkeit bei ${at}`,
      inSentence: `Geschwindigkeit bei ${at}`,
      describes: `Geschwindigkeit auf der Linie nach ${nachStrecke(distance)} aus dem Stand: die Geschwindigkeit in diesem Augenblick, kein Mittel über die letzten Meter.`,
    }),
    between: (from, to, unit) =>
      sameInSentence(
        `${from}–${to} ${unit}`,
        `Zeit von ${from} auf ${to} ${unit} bei bereits rollendem Auto.`,
      ),
    stopFrom: (from, unit) =>
      sameInSentence(
        `${from}–0 ${unit}`,
        `Bremsweg aus ${from} ${unit} bis zum Stillstand, ohne Reaktionszeit.`,
      ),
    mfddFrom: (from, unit) => ({
      label: `Mittlere Vollverzögerung aus ${from} ${unit}`,
      inSentence: `mittlere Vollverzögerung aus ${from} ${unit}`,
      describes: `Mittlere Vollverzögerung (MFDD) einer Bremsung aus ${from} ${unit}, zwischen 80 % und 10 % dieser Geschwindigkeit (UN R13-H, Anhang 3).`,
    }),
    peakAcceleration: {
      label: 'Höchste Beschleunigung',
      inSentence: 'höchste Beschleunigung',
      describes: 'Höchste Beschleunigung einer Fahrt, die Geschwindigkeit aufbaut.',
    },
    topSpeed: {
      label: 'Höchste erreichte Geschwindigkeit',
      inSentence: 'höchste erreichte Geschwindigkeit',
      describes:
        'Höchste Geschwindigkeit einer Fahrt, in einer Richtung und auf der Strecke, die es gab: nicht die höchste, die das Auto fahren kann.',
    },
    rolling: label => `${label} aus rollender Fahrt`,
  },
});

export type MeasureWords = ReturnType<typeof measureWords>;
