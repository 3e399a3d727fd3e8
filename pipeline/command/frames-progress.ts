/** Progress of many equal parts, with an estimate of the time left from the parts done so far. */
import type { Io } from './io.ts';

export interface FrameProgress {
  done(): void;
  close(): void;
}

/** Between two lines where there is no terminal, and between two estimates on one, ms. */
const LINE_MS = 5000;
const DRAW_MS = 100;

/** Seconds left if the rest goes as fast as what is done; undefined before anything is. */
export const secondsLeft = (done: number, total: number, elapsedS: number): number | undefined =>
  done === 0 ? undefined : ((total - done) * elapsedS) / done;

/** `120 of 500 frames, about 3 s left`. */
export function progressLine(done: number, total: number, elapsedS: number): string {
  const left = secondsLeft(done, total, elapsedS);
  const share = `${done} of ${total} frames`;
  if (left === undefined || done === total) return share;
  const whole = Math.ceil(left);
  return `${share}, about ${whole < 100 ? `${whole} s` : `${Math.ceil(whole / 60)} min`} left`;
}

/** A moving line on a terminal, a line every few seconds elsewhere; on standard error. `now` in ms. */
export function frameProgress(
  io: Pick<Io, 'stderr' | 'isTerminal'>,
  total: number,
  now: () => number = () => performance.now(),
): FrameProgress {
  const began = now();
  let last = began;
  let count = 0;
  return {
    done() {
      count += 1;
      const at = now();
      if (at - last < (io.isTerminal ? DRAW_MS : LINE_MS)) return;
      last = at;
      const line = progressLine(count, total, (at - began) / 1000);
      io.stderr(io.isTerminal ? `\r\u001b[K${line}` : `${line}\n`);
    },
    close() {
      if (io.isTerminal) io.stderr('\r\u001b[K');
    },
  };
}
