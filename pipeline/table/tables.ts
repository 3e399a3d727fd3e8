/** Every table by its kind: one line here and one file make a new one. */
import { catalogue, type Spoken } from '../language.ts';
import type { House, TestResult } from '../result/result.ts';
import { againstTable } from './against.ts';
import { attemptsTable } from './attempts.ts';
import { conditionsTable } from './conditions.ts';
import { launchMethodsTable } from './launch-methods.ts';
import { launchesTable } from './launches.ts';
import { movingTable } from './moving.ts';
import { restatedTable } from './restated.ts';
import { specTable } from './spec.ts';
import { splitsTable } from './splits.ts';
import type { Table } from './table.ts';
import { testPlanTable } from './test-plan.ts';

/** As written in an article: `::table{show=splits}`. */
export type TableKind =
  | 'spec'
  | 'splits'
  | 'moving'
  | 'restated'
  | 'launch-methods'
  | 'launches'
  | 'conditions'
  | 'attempts'
  | 'against'
  | 'road-plan';

export interface TableMaker {
  /** What it holds, for lists to choose from. */
  readonly describes: (spoken: Spoken) => string;
  /** A table without rows says in its notes why. */
  make(test: TestResult, house: House, others?: readonly TestResult[]): Table;
}

/** In the order a page shows them. */
export const TABLES: Readonly<Record<TableKind, TableMaker>> = {
  spec: {
    describes: catalogue({ en: 'The car as it was tested.', de: 'Das Auto, wie es getestet wurde.' }),
    make: specTable,
  },
  splits: {
    describes: catalogue({
      en: 'Times, distances and speeds from rest, best and median under both start rules.',
      de: 'Zeiten, Wege und Geschwindigkeiten aus dem Stand, bester Wert und Median nach beiden Startregeln.',
    }),
    make: splitsTable,
  },
  moving: {
    describes: catalogue({
      en: 'Figures that no start rule touches: rolling times, stops, highest acceleration and speed.',
      de: 'Werte, die keine Startregel berührt: Zeiten aus der Fahrt, Bremsungen, höchste Beschleunigung und Geschwindigkeit.',
    }),
    make: movingTable,
  },
  restated: {
    describes: catalogue({
      en: 'Starts as measured and restated for a level road in still reference air, and what each condition changed.',
      de: 'Starts wie gemessen und umgerechnet auf ebene Straße und ruhende Bezugsluft, und was jede Bedingung änderte.',
    }),
    make: restatedTable,
  },
  'launch-methods': {
    describes: catalogue({
      en: 'Launch methods side by side, with what the day can tell of their difference.',
      de: 'Startmethoden nebeneinander, mit dem, was der Tag über ihren Unterschied sagen kann.',
    }),
    make: (test, house) => launchMethodsTable(test, house),
  },
  launches: {
    describes: catalogue({
      en: 'Standing starts in the day’s order, the pauses between them, and heat of a slipping clutch.',
      de: 'Starts aus dem Stand in der Reihenfolge des Tages, die Pausen dazwischen und die Wärme einer schleifenden Kupplung.',
    }),
    make: launchesTable,
  },
  conditions: {
    describes: catalogue({
      en: 'Every reading of air, wind and surface.',
      de: 'Jede Ablesung von Luft, Wind und Fahrbahn.',
    }),
    make: conditionsTable,
  },
  attempts: {
    describes: catalogue({
      en: 'Every attempt of the day, kept or set aside.',
      de: 'Jeder Versuch des Tages, gewertet oder nicht.',
    }),
    make: attemptsTable,
  },
  against: {
    describes: catalogue({
      en: 'This test beside the others, with what was alike and what was not.',
      de: 'Dieser Test neben den anderen, mit dem, was gleich war und was nicht.',
    }),
    make: againstTable,
  },
  'road-plan': {
    describes: catalogue({
      en: 'What speeds the road has room for after what this test has measured, in metres from the start, with every assumption.',
      de: 'Für welche Geschwindigkeiten die Strecke nach den Messungen dieses Tests Platz hat, in Metern vom Start, mit jeder Annahme.',
    }),
    make: testPlanTable,
  },
};

export const TABLE_KINDS = Object.keys(TABLES) as readonly TableKind[];

/** Whether a word names a table. */
export const isTableKind = (word: string): word is TableKind => Object.hasOwn(TABLES, word);
