/** Processes as Linux tells of them under /proc: whose child each is, its time of processor, its memory. */
import { readdirSync, readFileSync } from 'node:fs';

export interface ProcessSeen {
  readonly pid: number;
  /** The name of its script, or of its file; `ENDED` of one that nobody has asked after since it ended. */
  readonly program: string;
  readonly userS: number;
  readonly systemS: number;
  /** Held now, and at most so far. */
  readonly rssMb: number;
  readonly peakMb: number;
}

export const ENDED = 'ended';

/** Ticks of /proc/PID/stat in a second: USER_HZ of proc(5), 100 on every architecture that Node is built for. */
const TICKS_PER_S = 100;

/** Processes with `pid` and all below it; none where there is no /proc. */
export function processTree(pid: number): readonly ProcessSeen[] {
  const running = readdirSync('/proc').flatMap(name =>
    /^\d+$/.test(name) ? (statOf(Number(name)) ?? []) : [],
  );
  const below = Map.groupBy(running, ({ parent }) => parent);
  const own = running.filter(stat => stat.pid === pid);
  // Those found are looked through for their children as well.
  for (const { pid } of own) own.push(...(below.get(pid) ?? []));
  return own.flatMap(stat => seenNow(stat) ?? []);
}

interface Stat extends Pick<ProcessSeen, 'pid' | 'userS' | 'systemS'> {
  readonly parent: number;
}

/** Fields of /proc/PID/stat, which follow a name that may hold anything; undefined where the process has ended. */
function statOf(pid: number): Stat | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const [, parent, ...rest] = text.slice(text.lastIndexOf(')') + 2).split(' ');
    return {
      pid,
      parent: Number(parent),
      userS: Number(rest[9]) / TICKS_PER_S,
      systemS: Number(rest[10]) / TICKS_PER_S,
    };
  } catch {
    return undefined;
  }
}

function seenNow({ pid, userS, systemS }: Stat): ProcessSeen | undefined {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const heldMb = (key: string): number =>
      Number(new RegExp(`^${key}:\\s*(\\d+)`, 'm').exec(status)?.[1] ?? 0) / 1024;
    const command = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    const program = /(\w[\w-]*)\.(?:mjs|ts)\0/.exec(command)?.[1] ?? nameOf(command);
    return { pid, program, userS, systemS, rssMb: heldMb('VmRSS'), peakMb: heldMb('VmHWM') };
  } catch {
    return undefined;
  }
}

/** Of a program that is not ours, the name of its file; one that has ended has none any more. */
const nameOf = (command: string): string => (command.split('\0')[0] ?? '').replace(/^.*\//, '') || ENDED;
