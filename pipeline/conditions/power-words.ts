/** Why no standard corrects an engine's power for the air of the day, and what was done about it. */
import { localiseDigits } from '../digits.ts';
import { catalogue, type Spoken } from '../language.ts';

export type PowerStandard = 'iso-1585-spark-ignition' | 'iso-1585-diesel' | 'sae-j1349';

/** What stands against a correction. Numbers in the unit of the standard's own limits: K, kPa, a plain factor. */
export type PowerRefusal =
  | {
      readonly of: 'temperature' | 'pressure' | 'factor';
      readonly standard: PowerStandard;
      readonly from: number;
      readonly to: number;
      readonly found: number;
    }
  | { readonly of: 'engine'; readonly engine: 'electric' | 'petrol-boosted' | 'diesel' };

type Engine = Extract<PowerRefusal, { readonly of: 'engine' }>['engine'];

/** What is known of the power behind a restated figure. */
export type PowerSays =
  | { readonly corrected: true }
  | {
      readonly corrected: false;
      readonly refusal?: PowerRefusal;
      readonly stays: 'none' | 'in the figure' | 'uncertain';
    };

export const powerWords = catalogue({
  en: {
    standard: {
      'iso-1585-spark-ignition': 'ISO 1585 for spark ignition',
      'iso-1585-diesel': 'ISO 1585 for diesel',
      'sae-j1349': 'SAE J1349',
    } satisfies Record<PowerStandard, string>,
    temperature: (standard: string, from: string, to: string, found: string) =>
      `${standard} stands for ${from} to ${to} K, not for ${found} K`,
    pressure: (standard: string, from: string, to: string, found: string) =>
      `${standard} stands for dry pressures of ${from} to ${to} kPa, not for ${found} kPa`,
    factor: (standard: string, from: string, to: string, found: string) =>
      `${standard} stands for factors of ${from} to ${to}, not for ${found}`,
    engine: {
      electric: 'An electric motor does not breathe: its power does not go with air density',
      'petrol-boosted':
        'No correction for a boosted petrol engine: it holds its boost against thinner air, and a full correction would overstate its power',
      diesel: 'The diesel formula needs the fuel delivered a cycle, which is not known from a road test',
    } satisfies Record<Engine, string>,
    corrected: 'Power corrected by ISO 1585 for spark ignition',
    notCorrected: (reason: string) => `Power not corrected: ${reason}`,
    staysInFigure: 'What the air of the day did to it stays in the figure',
    staysUncertain: 'What the formula would have changed counts as uncertainty',
  },
  de: {
    standard: {
      'iso-1585-spark-ignition': 'ISO 1585 für Ottomotoren',
      'iso-1585-diesel': 'ISO 1585 für Dieselmotoren',
      'sae-j1349': 'SAE J1349',
    },
    temperature: (standard, from, to, found) =>
      `${standard} gilt für ${from} bis ${to} K, nicht für ${found} K`,
    pressure: (standard, from, to, found) =>
      `${standard} gilt für trockene Drücke von ${from} bis ${to} kPa, nicht für ${found} kPa`,
    factor: (standard, from, to, found) =>
      `${standard} gilt für Faktoren von ${from} bis ${to}, nicht für ${found}`,
    engine: {
      electric: 'Ein Elektromotor atmet nicht: Seine Leistung hängt nicht von der Luftdichte ab',
      'petrol-boosted':
        'Keine Korrektur für einen aufgeladenen Ottomotor: Er hält seinen Ladedruck auch in dünnerer Luft, und eine volle Korrektur würde seine Leistung überschätzen',
      diesel:
        'Die Formel für Dieselmotoren braucht die Einspritzmenge je Arbeitsspiel, die ein Straßentest nicht kennt',
    },
    corrected: 'Leistung nach ISO 1585 für Ottomotoren korrigiert',
    notCorrected: reason => `Leistung nicht korrigiert: ${reason}`,
    staysInFigure: 'Was die Luft des Tages an ihr geändert hat, steckt weiter im Wert',
    staysUncertain: 'Was die Formel geändert hätte, zählt als Unsicherheit',
  },
});

/** Why a correction was refused, without a full stop. */
export function refusalInWords(refusal: PowerRefusal, spoken: Spoken): string {
  const words = powerWords(spoken);
  if (refusal.of === 'engine') return words.engine[refusal.engine];
  const print = (value: number): string => localiseDigits(String(value), spoken);
  const { standard, from, to, found } = refusal;
  return words[refusal.of](words.standard[standard], print(from), print(to), print(found));
}

/** What was done about the engine's power, without a full stop. */
export function powerInWords(says: PowerSays, spoken: Spoken): string {
  const words = powerWords(spoken);
  if (says.corrected) return words.corrected;
  const said = words.notCorrected(says.refusal === undefined ? '' : refusalInWords(says.refusal, spoken));
  if (says.stays === 'none') return said;
  return `${said}. ${says.stays === 'uncertain' ? words.staysUncertain : words.staysInFigure}`;
}
