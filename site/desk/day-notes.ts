/** Notes of attempts: found for a run, made where it has none, set against the clock at the road. */
import { signal } from '@preact/signals';
import { sToClockText, zoneTextToS } from '../../pipeline/content/calendar.ts';
import type { Change, DraftTest, RunSeen } from './answers.ts';
import { changeAll } from './saving.ts';
import { test, view } from './state.ts';

type Attempt = NonNullable<DraftTest['attempts']>[number];
type NoteKey = 'launch' | 'direction' | 'note' | 'set_aside' | 'at';

const keyOf = ({ log, number }: Pick<RunSeen, 'log' | 'number'>): string => `${log} ${number}`;

/** Notes made here that the server has not told their run yet. */
const made = signal<{ readonly version: string | undefined; readonly of: Readonly<Record<string, number>> }>({
  version: undefined,
  of: {},
});

const madeNow = (): Readonly<Record<string, number>> =>
  made.value.version === view.value?.version ? made.value.of : {};

/** Index of the note of a run; undefined where it has none. */
export const noteOf = (run: RunSeen): number | undefined => run.attempt ?? madeNow()[keyOf(run)];

/** How a note says which run it means. */
const pointingTo = ({ clock, log, number }: RunSeen): Partial<Attempt> =>
  clock === undefined ? { log, run: number } : { at: clock };

/** Changes what is noted about a run, and begins its note where there is none. */
export function noteRun(run: RunSeen, key: NoteKey, value: string | null): void {
  const index = noteOf(run);
  if (index !== undefined) changeAll([{ path: ['attempts', index, key], value }]);
  else if (value !== null) begin([run], { [key]: value });
}

/** Begins a note for each of the runs. */
export const noteRuns = (runs: readonly RunSeen[]): void => begin(runs, {});

function begin(runs: readonly RunSeen[], more: Readonly<Record<string, string>>): void {
  const first = test.value.attempts?.length ?? 0;
  made.value = {
    version: view.value?.version,
    of: { ...madeNow(), ...Object.fromEntries(runs.map((run, i) => [keyOf(run), first + i])) },
  };
  changeAll(
    runs.map((run, i): Change => ({ path: ['attempts', first + i], value: { ...pointingTo(run), ...more } })),
  );
}

/** Adds a note as it was typed; what is empty is left out. */
export function addNote(note: Readonly<Record<NoteKey, string>>): void {
  const filled = Object.fromEntries(Object.entries(note).filter(([, value]) => value.trim() !== ''));
  changeAll([{ path: ['attempts', test.value.attempts?.length ?? 0], value: filled }]);
}

/** The time now on the clock at the road, `10:22:40`. */
export function clockNow(now = new Date()): string {
  const aheadS = zoneTextToS(test.value.time_zone ?? '') ?? -now.getTimezoneOffset() * 60;
  return sToClockText(now.getTime() / 1000 + aheadS);
}
