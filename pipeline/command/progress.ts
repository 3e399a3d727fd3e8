/** Progress of long work: one moving line on a terminal, plain lines elsewhere, never in the data. */
import type { Io } from './io.ts';

export interface Progress {
  /** Says which step begins, such as `figures`, and of how many parts it has. */
  step(name: string, total: number): void;
  /** One part of the step is done. */
  done(): void;
  /** Ends the moving line. */
  close(): void;
}

/** Elsewhere than on a terminal a line at most this often, ms. */
const LINE_EVERY_MS = 60_000;
/** Before this share of a step is done, how long it takes is not told. */
const TOLD_FROM = 0.02;
const TOLD_FROM_MS = 5000;

/** @param nowMs a clock that only goes forward */
export function progressTo(
  io: Pick<Io, 'stderr' | 'isTerminal'>,
  nowMs: () => number = () => performance.now(),
): Progress {
  let name = '';
  let total = 0;
  let count = 0;
  let beganMs = 0;
  let lineMs = 0;
  const state = (): string => {
    const share = total > 1 ? ` ${count} of ${total}` : '';
    return `${name}${share}${timeLeft(nowMs() - beganMs, count, total)}`;
  };
  const draw = (): void => io.stderr(`\r\u001b[K${state()}`);
  return {
    step(nextName, nextTotal) {
      name = nextName;
      total = nextTotal;
      count = 0;
      beganMs = nowMs();
      lineMs = beganMs;
      if (io.isTerminal) draw();
      else io.stderr(`${name}${total > 1 ? ` (${total})` : ''}\n`);
    },
    done() {
      count += 1;
      if (io.isTerminal) draw();
      else if (nowMs() - lineMs >= LINE_EVERY_MS) {
        lineMs = nowMs();
        io.stderr(`${state()}\n`);
      }
    },
    close() {
      if (io.isTerminal) io.stderr('\r\u001b[K');
    },
  };
}

/** As `progress`, saying as well how long each step took, for whoever makes the program faster. */
export function withTimes(
  progress: Progress,
  io: Pick<Io, 'stderr'>,
  nowMs: () => number = () => performance.now(),
): Progress {
  let name: string | undefined;
  let beganMs = nowMs();
  const told = (): void => {
    if (name !== undefined) io.stderr(`took ${((nowMs() - beganMs) / 1000).toFixed(2)} s: ${name}\n`);
    name = undefined;
  };
  return {
    ...progress,
    step(nextName, total) {
      told();
      name = nextName;
      beganMs = nowMs();
      progress.step(nextName, total);
    },
    close() {
      progress.close();
      told();
    },
  };
}

/** What is left at the pace so far: `, about 3 min left`. */
function timeLeft(soFarMs: number, count: number, total: number): string {
  if (count >= total || count < total * TOLD_FROM || soFarMs < TOLD_FROM_MS || count === 0) return '';
  const leftS = ((soFarMs / count) * (total - count)) / 1000;
  if (leftS < 60) return `, about ${Math.max(5, Math.round(leftS / 5) * 5)} s left`;
  const minutes = Math.round(leftS / 60);
  return minutes < 90 ? `, about ${minutes} min left` : `, about ${Math.round(leftS / 3600)} h left`;
}
