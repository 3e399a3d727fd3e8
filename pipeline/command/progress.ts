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

export function progressTo(io: Pick<Io, 'stderr' | 'isTerminal'>): Progress {
  let name = '';
  let total = 0;
  let count = 0;
  const draw = (): void => {
    const share = total > 1 ? ` ${count} of ${total}` : '';
    io.stderr(`\r\u001b[K${name}${share}`);
  };
  return {
    step(nextName, nextTotal) {
      name = nextName;
      total = nextTotal;
      count = 0;
      if (io.isTerminal) draw();
      else io.stderr(`${name}${total > 1 ? ` (${total})` : ''}\n`);
    },
    done() {
      count += 1;
      if (io.isTerminal) draw();
    },
    close() {
      if (io.isTerminal) io.stderr('\r\u001b[K');
    },
  };
}
