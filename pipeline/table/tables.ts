/** Every table by its kind: one line here and one file make a new one. */
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
  /** For the list of tables in the documentation. */
  readonly describes: string;
  /** A table without rows says in its notes why. */
  make(test: TestResult, house: House, others?: readonly TestResult[]): Table;
}

/** In the order a page shows them. */
export const TABLES: Readonly<Record<TableKind, TableMaker>> = {
  spec: { describes: 'The car as it was tested.', make: specTable },
  splits: {
    describes: 'Times, distances and speeds from rest, best and median under both start rules.',
    make: splitsTable,
  },
  moving: {
    describes: 'Figures that no start rule touches: rolling times, stops, highest acceleration and speed.',
    make: movingTable,
  },
  restated: {
    describes:
      'Starts as measured and restated for a level road in still reference air, and what each condition changed.',
    make: restatedTable,
  },
  'launch-methods': {
    describes: 'Launch methods side by side, with what the day can tell of their difference.',
    make: (test, house) => launchMethodsTable(test, house),
  },
  launches: {
    describes: 'Standing starts in the day’s order, the pauses between them, and heat of a slipping clutch.',
    make: launchesTable,
  },
  conditions: { describes: 'Every reading of air, wind and surface.', make: conditionsTable },
  attempts: { describes: 'Every attempt of the day, kept or set aside.', make: attemptsTable },
  against: {
    describes: 'This test beside the others, with what was alike and what was not.',
    make: againstTable,
  },
  'road-plan': {
    describes:
      'What speeds the road has room for after what this test has measured, in metres from the start, with every assumption.',
    make: testPlanTable,
  },
};

export const TABLE_KINDS = Object.keys(TABLES) as readonly TableKind[];

/** Whether a word names a table. */
export const isTableKind = (word: string): word is TableKind => Object.hasOwn(TABLES, word);
