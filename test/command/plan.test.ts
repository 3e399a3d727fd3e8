import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Io } from '../../pipeline/command/io.ts';
import { runPlan } from '../../pipeline/command/plan.ts';
import { PLAN_CAUTION } from '../../pipeline/result/caution.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { demoPublication } from '../demo.ts';

const ROOT = resolve(import.meta.dirname, '../..');
/** A car, its road and its test of the demo content. */
const CAR = ['--car', 'marrowby-lantern', '--road', 'ossenby-fen'];
const MEASURED = [...CAR, '--test', 'marrowby-lantern-dry'];

async function planOf(args: readonly string[], load: () => Promise<Publication> = () => demo) {
  let stdout = '';
  let stderr = '';
  const io: Io = {
    stdout: text => {
      stdout += text;
    },
    stderr: text => {
      stderr += text;
    },
    stdin: async () => new Uint8Array(),
    readFile: async () => new Uint8Array(),
    isTerminal: false,
    root: ROOT,
  };
  return { exit: await runPlan(args, io, load), stdout, stderr };
}

const plan = (...args: string[]) => planOf(args);

interface Figures {
  readonly adverse?: number;
  readonly middle?: number;
  readonly favourable?: number;
}
interface PlanJson {
  readonly caution: string;
  readonly acceleration_from: string;
  readonly deceleration_from: string;
  readonly highest_speed_kmh: Required<Figures>;
  readonly rows: readonly {
    readonly speed_kmh: number;
    readonly reached_m: Figures;
    readonly room: string;
  }[];
  readonly assumptions: readonly { readonly name: string; readonly says: string }[];
}
const json = async (...args: string[]): Promise<PlanJson> =>
  JSON.parse((await plan(...args, '--json')).stdout) as PlanJson;

let demo: Promise<Publication>;
let folder = '';
beforeAll(async () => {
  demo = demoPublication();
  folder = await mkdtemp(join(tmpdir(), 'road-plan-'));
});
afterAll(() => rm(folder, { recursive: true }));

/** Digits of each line of the table. */
const tableOf = (text: string): string[][] =>
  text
    .split('\n')
    .filter(line => /^ *\d+ {3,}(\d|–)/.test(line))
    .map(line => line.trim().split(/ {3,}/));

describe('evenground plan', () => {
  it('prints the caution before any figure, and fits a terminal of 80 columns', async () => {
    for (const args of [CAR, MEASURED, [...MEASURED, '--wet', '--tow', '900', '--direction', 'west']]) {
      const { exit, stdout, stderr } = await plan(...args);
      expect([exit, stderr]).toEqual([0, '']);
      expect(stdout.replaceAll('\n', ' ').startsWith(`CAUTION. ${PLAN_CAUTION}`)).toBe(true);
      expect(stdout.split('\n').filter(line => line.length > 80)).toEqual([]);
      // A plan is arithmetic: it calls nothing by that word.
      expect(stdout).not.toMatch(/\bsafe/i);
    }
  });

  it('prints each speed with the place it is reached by, to brake by, to stand by, and what is left', async () => {
    const rows = tableOf((await plan(...CAR)).stdout);
    expect(rows.length).toBeGreaterThan(6);
    const lengthM = 1640;
    let before = 0;
    for (const [speed, reached, brake, stopped, left] of rows.filter(row => row[2] !== 'no room')) {
      expect(Number(speed)).toBeGreaterThan(before);
      before = Number(speed);
      expect(Number(reached)).toBeLessThanOrEqual(Number(brake) + 1);
      expect(Number(stopped) + Number(left)).toBe(lengthM);
      expect(Number(left)).toBeGreaterThanOrEqual(100);
    }
    expect(rows.at(-1)![2]).toBe('no room');
  });

  it('says ± of every row, and less of it once the day has been measured', async () => {
    const before = tableOf((await plan(...CAR)).stdout);
    const after = tableOf((await plan(...MEASURED)).stdout);
    const wide = (rows: string[][], speed: string): number =>
      Number(
        rows
          .find(row => row[0] === speed)!
          .at(-1)!
          .replace(/^±\s/, ''),
      );
    for (const speed of ['50', '80', '100', '120']) {
      expect(wide(before, speed)).toBeGreaterThan(0);
      expect(wide(after, speed)).toBeLessThan(wide(before, speed) / 2);
    }
  });

  it('names which figures are estimated and which measured', async () => {
    const before = await json(...CAR);
    expect([before.acceleration_from, before.deceleration_from]).toEqual(['estimated', 'estimated']);
    const after = await json(...MEASURED);
    expect([after.acceleration_from, after.deceleration_from]).toEqual(['measured', 'measured']);
    const stated = await json(...MEASURED, '--deceleration', '7');
    expect(stated.deceleration_from).toBe('stated');
    expect(after.caution).toContain(PLAN_CAUTION);
  });

  it('states every assumption', async () => {
    const { assumptions } = await json(...MEASURED, '--load', '200', '--headwind', '-3', '--reaction', '1.5');
    const says = Object.fromEntries(assumptions.map(one => [one.name, one.says]));
    expect(Object.keys(says)).toEqual([
      'Road',
      'Surface',
      'Car',
      'Load and tow',
      'Start',
      'Acceleration',
      'Deceleration',
      'Brakes',
      'Reaction',
      'Air',
      'Wind',
      'Reserve',
    ]);
    expect(says['Load and tow']).toContain('200\u00a0kg');
    expect(says.Wind).toContain('3.0\u00a0m/s behind');
    expect(says.Reaction).toContain('1.50\u00a0s');
  });

  it('leaves less speed in the wet, with a load, with more reserve, with a slower driver', async () => {
    const { highest_speed_kmh: plain } = await json(...MEASURED);
    for (const args of [['--wet'], ['--load', '400'], ['--reserve', '300'], ['--reaction', '2.5']]) {
      const { highest_speed_kmh: less } = await json(...MEASURED, ...args);
      expect(less.adverse, args[0]).toBeLessThan(plain.adverse);
      expect(less.middle, args[0]).toBeLessThan(plain.middle);
    }
  });

  it('leaves out of JSON what is not reached, and never writes null', async () => {
    const { stdout } = await plan(...MEASURED, '--json');
    expect(stdout).not.toContain('null');
    const { rows } = JSON.parse(stdout) as PlanJson;
    const last = rows.at(-1)!;
    expect(last.room).not.toBe('room');
    expect(last.reached_m.adverse).toBeUndefined();
  });

  it('writes a card that stands alone: caution, the same places, assumptions, no script', async () => {
    const file = join(folder, 'card.html');
    const { exit, stdout, stderr } = await plan(...MEASURED, '--card', file);
    expect([exit, stderr]).toEqual([0, `wrote ${file}\n`]);
    const html = await readFile(file, 'utf8');
    expect(html).toMatch(/^<!doctype html>/);
    expect(html).toContain(PLAN_CAUTION);
    expect(html.indexOf(PLAN_CAUTION)).toBeLessThan(html.indexOf('<table>'));
    expect(html).not.toMatch(/<script|<link|src=|url\(|@import|\bsafe/i);
    for (const row of tableOf(stdout)) {
      const cells = row.map(text => text.replace(/ /g, ' '));
      const printed = [...html.matchAll(/<tr>(.*?)<\/tr>/g)].map(match =>
        match[1]!
          .replace(/<[^>]*>/g, '|')
          .split('|')
          .filter(Boolean),
      );
      expect(printed).toContainEqual(cells);
    }
  });

  it('gives status 1 and one line where the card cannot be written', async () => {
    const { exit, stderr } = await plan(...CAR, '--card', join(ROOT, 'package.json', 'card.html'));
    expect(exit).toBe(1);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toContain('[plan-card]');
  });

  it.each([
    [['--car', 'marrowby-lantern'], 'usage-plan-names'],
    [['--car', 'nobody', '--road', 'ossenby-fen'], 'usage-plan-car'],
    [['--car', 'marrowby-lantern', '--road', 'nowhere'], 'usage-plan-road'],
    [[...CAR, '--test', 'no-test'], 'usage-plan-test'],
    [[...CAR, '--test', 'quillet-sorrel-dry'], 'usage-plan-other-car'],
    [[...CAR, '--direction', 'up'], 'usage-plan-direction'],
    [[...CAR, '--reserve', 'some'], 'usage-plan-number'],
    [[...CAR, '--deceleration', '0'], 'usage-plan-number'],
    [[...CAR, '--speed', '5'], 'usage-plan-option'],
    [[...CAR, '--load'], 'usage-plan-option'],
    [[...CAR, 'more'], 'usage-plan-option'],
  ])('gives status 2 and one line for %j', async (args, id) => {
    const { exit, stdout, stderr } = await plan(...args);
    expect([exit, stdout]).toEqual([2, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toContain(`[${id}]`);
  });

  it('makes no plan of a road, car or test with errors, and minds no other', async () => {
    const wrong = (file: string) => ({
      id: 'x',
      severity: 'error' as const,
      what: 'Wrong',
      where: { file },
      mend: 'Mend.',
    });
    const { house, ...content } = await demo;
    const withError = async (file: string) =>
      planOf(MEASURED, async () => ({ ...content, house, problems: [wrong(file)] }));
    for (const file of [
      'roads/ossenby-fen.yaml',
      'cars/marrowby-lantern.yaml',
      'tests/marrowby-lantern-dry/test.yaml',
    ]) {
      const { exit, stdout, stderr } = await withError(`content/${file}`);
      expect([exit, stdout]).toEqual([1, '']);
      expect(stderr).toContain('No plan was made');
    }
    expect((await withError('content/cars/tolvane-barrow.yaml')).exit).toBe(0);
  });

  it('prints its usage and goes', async () => {
    const { exit, stdout } = await plan('--help');
    expect(exit).toBe(0);
    expect(stdout).toContain('not a clearance to drive');
    expect(stdout.split('\n').filter(line => line.length > 84)).toEqual([]);
  });
});
