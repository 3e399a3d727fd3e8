/** What the desk's server answers, as the page relies on it. Names carry their units; what is absent is not known. */

import type { CarContent, HouseContent, RoadContent, TestContent } from '../../pipeline/content/schema.ts';
import type { Change } from '../../pipeline/desk/change.ts';
import type { Gap } from '../../pipeline/desk/gaps.ts';
import type { ColumnAsked, LogSeen } from '../../pipeline/desk/log-seen.ts';
import type { PlanSeen } from '../../pipeline/desk/plan-asked.ts';
import type { ChangeTold } from '../../pipeline/desk/server.ts';
import type { Strip } from '../../pipeline/desk/strip.ts';
import type { Problem } from '../../pipeline/problem.ts';

export type { Change, ChangeTold, ColumnAsked, Gap, LogSeen, PlanSeen };
/** Speed of one log. */
export type TraceSeen = Strip;

/** A test while it is being put together: any part may still be missing. */
export type DraftTest = {
  readonly [K in keyof TestContent]?: TestContent[K] extends (infer Item)[] | undefined
    ? readonly Partial<Item>[]
    : TestContent[K] extends object | undefined
      ? Partial<TestContent[K]>
      : TestContent[K];
};

export interface NamedCar {
  readonly id: string;
  readonly name: string;
  readonly version: string;
  /** Changes of its file that can be taken back. */
  readonly undo: number;
  readonly car: Partial<CarContent>;
}

export interface NamedRoad {
  readonly id: string;
  readonly name: string;
  readonly version: string;
  readonly undo: number;
  readonly road: Partial<RoadContent>;
}

export interface TestLine {
  readonly id: string;
  readonly title: string;
  readonly date?: string;
  readonly car?: string;
  readonly road?: string;
  readonly signedOff?: { readonly date: string };
}

export interface PublicationView {
  readonly house: Partial<HouseContent>;
  readonly cars: readonly NamedCar[];
  readonly roads: readonly NamedRoad[];
  readonly tests: readonly TestLine[];
  readonly problems: readonly Problem[];
}

export interface RunSeen {
  readonly log: string;
  readonly number: number;
  readonly kind: 'standing-start' | 'rolling' | 'braking';
  readonly status: 'complete' | 'aborted';
  readonly beginsS: number;
  readonly endsS: number;
  readonly clock?: string;
  readonly topKmh: number;
  /** What it came to, printed. */
  readonly says?: string;
  /** Index of its note in the test's attempts. */
  readonly attempt?: number;
  readonly attemptId?: string;
  readonly kept: boolean;
  readonly setAside?: string;
  readonly flags: readonly string[];
}

export interface AttemptSeen {
  readonly index: number;
  readonly id?: string;
  readonly run?: { readonly log: string; readonly number: number };
  /** Why it belongs to no run. */
  readonly says?: string;
}

export interface ResultSeen {
  readonly measure: string;
  readonly label: string;
  readonly startRule?: string;
  readonly n: number;
  readonly nSetAside: number;
  readonly text: string;
}

export interface FigureSeen {
  readonly kind: string;
  readonly describes: string;
  readonly title?: string;
  /** Why it cannot be drawn from this test. */
  readonly reason?: string;
}

export interface OverlaySeen {
  readonly name: string;
  readonly kind: string;
  readonly describes: string;
  readonly altText: string;
}

export interface TableSeen {
  readonly kind: string;
  readonly describes: string;
  readonly caption?: string;
}

export interface TestView {
  readonly id: string;
  readonly version: string;
  readonly test: DraftTest;
  readonly article: string;
  readonly articleVersion: string;
  readonly logs: readonly LogSeen[];
  readonly runs: readonly RunSeen[];
  readonly attempts: readonly AttemptSeen[];
  readonly results: readonly ResultSeen[];
  readonly verdicts: readonly string[];
  readonly gaps: readonly Gap[];
  readonly problems: readonly Problem[];
  readonly undo: number;
  readonly redo: number;
  readonly figures: readonly FigureSeen[];
  readonly overlays: readonly OverlaySeen[];
  readonly tables: readonly TableSeen[];
  /** Sizes of picture that lower thirds are made for. */
  readonly sizes: readonly string[];
  readonly signedOff?: { readonly date: string };
  /** Whether the page readers will see can be shown. */
  readonly pageReady?: boolean;
  /** Another where a picture of the test may look different: its own files but the article, cars, roads, the house. */
  readonly drawnFrom: string;
}

export interface Insert {
  readonly directive: string;
  readonly label: string;
  /** What will stand there. */
  readonly shows: string;
}

export interface Inserts {
  readonly numbers: readonly Insert[];
  readonly conditions: readonly Insert[];
  readonly figures: readonly Insert[];
  readonly tables: readonly Insert[];
}

/** Of a test, before anything is measured anew. */
export type WrittenView = Pick<
  TestView,
  'id' | 'version' | 'test' | 'article' | 'articleVersion' | 'logs' | 'undo' | 'redo'
>;

/** A file that somebody else changed meanwhile: both versions whole. */
export interface Conflict {
  readonly yours: string;
  readonly onDisk: string;
  readonly versionOnDisk: string;
}
