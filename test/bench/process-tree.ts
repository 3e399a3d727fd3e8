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
  const below = new Map<number, number[]>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const parent = statOf(Number(name))?.parent;
    if (parent !== undefined) below.set(parent, [...(below.get(parent) ?? []), Number(name)]);
  }
  const found: ProcessSeen[] = [];
  const visit = (one: number): void => {
    const seen = seenNow(one);
    if (seen) found.push(seen);
    for (const child of below.get(one) ?? []) visit(child);
  };
  visit(pid);
  return found;
}

/** Fields of /proc/PID/stat, which follow a name that may hold anything; undefined where the process has ended. */
function statOf(pid: number): { parent: number; userS: number; systemS: number } | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const [, parent, ...rest] = text.slice(text.lastIndexOf(')') + 2).split(' ');
    return {
      parent: Number(parent),
      userS: Number(rest[9]) / TICKS_PER_S,
      systemS: Number(rest[10]) / TICKS_PER_S,
    };
  } catch {
    return undefined;
  }
}

function seenNow(pid: number): ProcessSeen | undefined {
  const times = statOf(pid);
  if (times === undefined) return undefined;
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const heldMb = (key: string): number =>
      Number(new RegExp(`^${key}:\\s*(\\d+)`, 'm').exec(status)?.[1] ?? 0) / 1024;
    const command = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    const program = /(\w[\w-]*)\.(?:mjs|ts)\0/.exec(command)?.[1] ?? nameOf(command);
    const { userS, systemS } = times;
    return { pid, program, userS, systemS, rssMb: heldMb('VmRSS'), peakMb: heldMb('VmHWM') };
  } catch {
    return undefined;
  }
}

/** Of a program that is not ours, the name of its file; one that has ended has none any more. */
const nameOf = (command: string): string => (command.split('\0')[0] ?? '').replace(/^.*\//, '') || ENDED;
