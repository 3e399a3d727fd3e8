/** Parts of the bench, each a process of its own, so that each is told by its own memory. */
import type { Timing } from './side-by-side.ts';

export interface Bench {
  readonly name: string;
  /** What one run of each way handles. */
  readonly of: string;
  readonly timings: readonly Timing[];
}

/** What a part tells the process that started it, while it works and at its end. */
export type Told =
  | { readonly bench: Bench }
  /** The most memory that the part's process itself ever held; a browser is a process of its own. */
  | { readonly peakMb: number };

const tell = (told: Told): void => {
  process.send?.(told);
};

export const report = (name: string, of: string, timings: readonly Timing[]): void =>
  tell({ bench: { name, of, timings } });

export const reportPeak = (): void => tell({ peakMb: Math.round(process.resourceUsage().maxRSS / 1024) });
