/** Pictures laid over video: drawn as SVG with outlined text, written as PNG with straight alpha. */
import type { Spoken } from '../language.ts';
import type { Lettering } from '../lettering/lettering.ts';
import type { Problem } from '../problem.ts';
import type { House, TestResult } from '../result/result.ts';

export interface FrameSize {
  /** Part of the file name, such as `1920x1080`. */
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface MadeOverlay {
  readonly kind: OverlayKind;
  /** File name without size and ending; sorts in the order of use. */
  readonly name: string;
  readonly altText: string;
  /** All that its pictures are made from besides size and fonts, as plain data. */
  readonly madeFrom: unknown;
  /** A complete SVG of the frame's size, text as paths. */
  svg(size: FrameSize, lettering: Lettering): string;
  /** What a person should know before using it at this size: text cut off, or too small to read. */
  problems(size: FrameSize, lettering: Lettering): readonly Problem[];
}

export type OverlayKind =
  | 'caution'
  | 'conditions'
  | 'result'
  | 'splits'
  | 'comparison'
  | 'directions'
  | 'restated'
  | 'road-plan'
  | 'credits';

export interface Overlay {
  readonly kind: OverlayKind;
  readonly describes: (spoken: Spoken) => string;
  /** Several where a test needs several, none where it has nothing to show. */
  make(test: TestResult, house: House, others: readonly TestResult[]): readonly MadeOverlay[];
}
