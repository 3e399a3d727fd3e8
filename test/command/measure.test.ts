import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runMeasure } from '../../pipeline/command/measure.ts';
import { describeWithSharedData } from '../outside/shared-data.ts';
import { runWith } from './fake-io.ts';
import { DAY, WRITTEN_DAYS } from './written-day.ts';

const measure = (args: readonly string[], files?: Readonly<Record<string, string | Uint8Array>>) =>
  runWith(runMeasure, args, files);
const lines = (text: string): string[] => text.split('\n').filter(line => line !== '');
const PLAIN = WRITTEN_DAYS[0]!.text;
const CLEAN_LINES = PLAIN.split('\n');

interface Split {
  to_kmh: number;
  start_rule: string;
  time_s: number;
}
interface Answer {
  contract: number;
  logs: {
    file: string;
    rate_hz: number;
    warnings: { code: string; line?: number; at_s?: number }[];
    runs: Record<string, unknown>[] & { speed_splits: Split[]; flags: { code: string }[] }[];
  }[];
}
const answerOf = (stdout: string): Answer => JSON.parse(stdout);

/** Speeds that the interface names, km/h; a publication may have more of its own. */
const NAMED_KMH = [30, 50, 60, 80, 96.56064, 100, 120, 130, 160, 200];
const isNamed = (mps: number): boolean => NAMED_KMH.some(kmh => Math.abs(kmh / 3.6 - mps) < 1e-9);

describe('one day written eleven ways', () => {
  it('is eleven ways', () => expect(WRITTEN_DAYS).toHaveLength(11));

  it.each(WRITTEN_DAYS)('measures the same after one foot from $way', async ({ text, args = [] }) => {
    const { exit, stdout } = await measure(['--json', ...args, 'day.log'], { 'day.log': text });
    expect(exit).toBe(0);
    const { runs } = answerOf(stdout).logs[0]!;
    expect(runs.map(({ kind, status }) => [kind, status])).toEqual(
      DAY.truth.map(({ kind, status }) => [kind, status]),
    );
    for (const [k, truth] of DAY.truth.entries()) {
      for (const { toMps, rolloutTimeS } of truth.speedSplits.filter(split => isNamed(split.toMps))) {
        const found = runs[k]!.speed_splits.find(
          split => split.start_rule === 'one-foot-rollout' && Math.abs(split.to_kmh / 3.6 - toMps) < 1e-6,
        );
        expect(Math.abs(found!.time_s - rolloutTimeS), `to ${toMps * 3.6} km/h`).toBeLessThan(0.03);
      }
    }
  });
});

describe('the JSON', () => {
  it('has the members of the contract and no others, and neither null nor a rounded number', async () => {
    const { stdout } = await measure(['--json', 'day.csv'], { 'day.csv': PLAIN });
    expect(stdout).not.toContain('null');
    const answer = answerOf(stdout);
    expect(answer.contract).toBe(1);
    const [log] = answer.logs;
    expect(Object.keys(log!)).toEqual([
      'file',
      'format',
      'samples',
      'duration_s',
      'rate_hz',
      'speed_source',
      'warnings',
      'runs',
    ]);
    const braked = log!.runs.find(run => (run.braking as unknown[]).length > 0)!;
    expect(Object.keys(braked)).toEqual([
      'number',
      'kind',
      'status',
      'begins_s',
      'ends_s',
      'start',
      'speed_splits',
      'distance_splits',
      'braking',
      'peak_mps2',
      'top_kmh',
      'flags',
    ]);
    expect(Object.keys(braked.start as object)).toEqual(['first_movement_s', 'rollout_s', 'uncertainty_s']);
    expect(Object.keys((braked.speed_splits as object[])[0]!)).toEqual([
      'from_kmh',
      'to_kmh',
      'start_rule',
      'time_s',
      'uncertainty_s',
      'distance_m',
    ]);
    expect(Object.keys((braked.distance_splits as object[])[0]!)).toEqual([
      'to_m',
      'start_rule',
      'time_s',
      'uncertainty_s',
      'speed_kmh',
    ]);
    expect(Object.keys((braked.braking as object[])[0]!)).toEqual([
      'from_kmh',
      'to_kmh',
      'distance_m',
      'uncertainty_m',
      'mfdd_mps2',
      'time_s',
    ]);
    const speeds = (braked.speed_splits as Split[]).map(({ to_kmh }) => to_kmh);
    expect([...new Set(speeds)]).toEqual([30, 50, 60, 80, 96.56064, 100, 120].slice(0, new Set(speeds).size));
    expect(String((braked.speed_splits as Split[])[0]!.time_s).length).toBeGreaterThan(8);
  });

  it('holds every log asked for, and standard input as -', async () => {
    const { exit, stdout } = await measure(['--json', 'a.csv', '-'], { 'a.csv': PLAIN, '-': PLAIN });
    expect(exit).toBe(0);
    expect(answerOf(stdout).logs.map(({ file }) => file)).toEqual(['a.csv', '-']);
  });

  it('is valid where a log has no run, and says so on standard error', async () => {
    const still = `time_s,speed_kmh\n${Array.from({ length: 100 }, (_, i) => `${i / 10},0.0${i % 3}`).join('\n')}\n`;
    const { exit, stdout, stderr } = await measure(['--json', 'still.csv'], { 'still.csv': still });
    expect(exit).toBe(0);
    expect(answerOf(stdout).logs[0]!.runs).toEqual([]);
    expect(stderr).toContain('no runs found');
  });
});

describe('the table', () => {
  it('fits 80 columns and states both start rules, uncertainty and what it is', async () => {
    const { exit, stdout, stderr } = await measure(['day.csv'], { 'day.csv': PLAIN });
    expect(exit).toBe(0);
    expect(stderr).toBe('');
    expect(Math.max(...lines(stdout).map(line => [...line].length))).toBeLessThanOrEqual(80);
    for (const words of [
      'from first movement',
      'after one foot',
      '0–100 km/h',
      '±',
      'k = 2',
      'standing start, aborted',
    ]) {
      expect(stdout).toContain(words);
    }
  });

  it('gives flags as footnotes, and warnings on standard error only', async () => {
    const holed = CLEAN_LINES.filter((_, i) => i < 1 || !inRun(i, 2, 3.3)).join('\n');
    const { stdout, stderr } = await measure(['day.csv'], { 'day.csv': holed });
    expect(stdout).toMatch(/Run 1 {2}standing start, \w+ \[1\]/);
    expect(stdout).toMatch(/^\[1\] gap: no reading for 1\.3\d s/m);
    expect(stdout).not.toContain('warning');
    expect(lines(stderr)).toEqual([
      expect.stringMatching(/^day\.csv:\d+: warning: no reading for 1\.3\d s .* \[gap\]$/),
    ]);
  });

  it('says so where a log has no run', async () => {
    const still = `time_s,speed_kmh\n${Array.from({ length: 100 }, (_, i) => `${i / 10},0`).join('\n')}\n`;
    const { exit, stdout } = await measure(['still.csv'], { 'still.csv': still });
    expect(exit).toBe(0);
    expect(stdout).toContain('No runs found in this log.');
  });
});

/** Whether a line of the plain day lies between two times after its first run begins. */
function inRun(line: number, fromS: number, toS: number): boolean {
  const since = Number(CLEAN_LINES[line]!.split(',')[0]) - DAY.truth[0]!.beginsS;
  return since > fromS && since < toS;
}

describe('damaged logs', () => {
  it('with a spike of 412 km/h are measured without it, flagged and told with the line', async () => {
    const at = CLEAN_LINES.findIndex((_, i) => i > 0 && inRun(i, 2, 99));
    const spiked = CLEAN_LINES.map((line, i) => (i === at ? `${line.split(',')[0]},412` : line)).join('\n');
    const { exit, stdout, stderr } = await measure(['--json', 'day.csv'], { 'day.csv': spiked });
    expect(exit).toBe(0);
    const [log] = answerOf(stdout).logs;
    expect(log!.warnings).toEqual([expect.objectContaining({ code: 'spike', line: at + 1 })]);
    expect(log!.runs[0]!.flags.map(({ code }) => code)).toContain('spike');
    expect(log!.runs[0]!.top_kmh).toBeLessThan(150);
    expect(lines(stderr)).toHaveLength(1);
  });

  it('with a hole of 1.3 s in a run are flagged there, and widen what the hole touches', async () => {
    const holed = CLEAN_LINES.filter((_, i) => i < 1 || !inRun(i, 2, 3.3)).join('\n');
    const { stdout } = await measure(['--json', 'day.csv'], { 'day.csv': holed });
    const [first, ...others] = answerOf(stdout).logs[0]!.runs;
    expect(first!.flags.map(({ code }) => code)).toEqual(['gap']);
    for (const run of others) expect(run.flags).toEqual([]);
    const truth = DAY.truth[0]!;
    for (const split of first!.speed_splits as (Split & { uncertainty_s: number })[]) {
      const known = truth.speedSplits.find(({ toMps }) => Math.abs(toMps - split.to_kmh / 3.6) < 1e-6)!;
      const trueS = split.start_rule === 'first-movement' ? known.timeS : known.rolloutTimeS;
      expect(Math.abs(split.time_s - trueS)).toBeLessThan(Math.max(0.05, split.uncertainty_s));
    }
  });
});

describe('logs that cannot be measured', () => {
  const cannot: Readonly<Record<string, string | Uint8Array>> = {
    'empty.csv': '',
    'binary.csv': Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 256),
    'words.csv': 'The quick brown fox\njumps over\nthe lazy dog\n',
    'no-speed.csv': 'time_s,altitude_m\n0,1\n0.1,1\n0.2,1\n',
    'page.csv': '<!doctype html><html><body>Not found</body></html>',
    'all-nan.csv': 'time_s,speed_kmh\n0,NaN\n0.1,NaN\n0.2,NaN\n',
    'header-only.csv': 'time_s,speed_kmh\n',
  };

  it.each(Object.keys(cannot))(
    '%s: exit 1 and one clear line with the file, what is wrong and what to do',
    async name => {
      const { exit, stdout, stderr } = await measure([name], cannot);
      expect(exit).toBe(1);
      expect(stdout).toBe('');
      expect(lines(stderr)).toHaveLength(1);
      expect(stderr).toMatch(
        new RegExp(`^${name.replace('.', '\\.')}(:\\d+)*.*: error: .+\\. .+ \\[[a-z-]+\\]\\n$`),
      );
      expect(stderr).not.toMatch(/\n {4}at /);
    },
  );

  it('a missing file and a folder: exit 1 and one line', async () => {
    expect(await measure(['absent.csv'])).toEqual({
      exit: 1,
      stdout: '',
      stderr: expect.stringMatching(/^absent\.csv: error: There is no such file\. .+ \[file-unreadable\]\n$/),
    });
  });

  it('do not lose the others', async () => {
    const { exit, stdout, stderr } = await measure(['--json', 'words.csv', 'day.csv', 'gone.csv'], {
      ...cannot,
      'day.csv': PLAIN,
    });
    expect(exit).toBe(1);
    expect(answerOf(stdout).logs.map(({ file }) => file)).toEqual(['day.csv']);
    expect(lines(stderr)).toHaveLength(2);
  });

  it('with some cells that are no numbers are measured without them, and say so', async () => {
    const holed = CLEAN_LINES.map((line, i) => (i > 5 && i < 9 ? `${line.split(',')[0]},NaN` : line)).join(
      '\n',
    );
    const { exit, stdout, stderr } = await measure(['--json', 'day.csv'], { 'day.csv': holed });
    expect(exit).toBe(0);
    expect(stderr).toContain('day.csv');
    expect(answerOf(stdout).logs[0]!.warnings.length).toBeGreaterThan(0);
    expect(answerOf(stdout).logs[0]!.runs).toHaveLength(DAY.truth.length);
  });

  it('that are cut off in the middle of a line are measured up to there', async () => {
    const { exit, stdout } = await measure(['--json', 'day.csv'], {
      'day.csv': PLAIN.slice(0, Math.floor(PLAIN.length * 0.6) + 3),
    });
    expect(exit).toBe(0);
    expect(answerOf(stdout).logs[0]!.runs.length).toBeGreaterThan(0);
  });
});

describe('wrong usage', () => {
  it.each([
    [[]],
    [['--conditions']],
    [['--jason', 'day.csv']],
    [['-x', 'day.csv']],
    [['--format', 'xlsx', 'day.csv']],
    [['--format']],
    [['--json=yes', 'day.csv']],
    [['--column', 'time', 'day.csv']],
    [['--column', 'time=', 'day.csv']],
    [['--column', 'time=t:', 'day.csv']],
    [['--column', 'pace=t', 'day.csv']],
    [['--column', 'time=a', '--column', 'time=b', 'day.csv']],
    [['-', '-']],
  ])('%j: exit 2 and one line that says what is accepted', async args => {
    const { exit, stdout, stderr } = await measure(args, { 'day.csv': PLAIN, '-': PLAIN });
    expect(exit).toBe(2);
    expect(stdout).toBe('');
    expect(lines(stderr)).toHaveLength(1);
    expect(stderr).toMatch(/\[usage-[a-z-]+\]\n$/);
  });

  it('names what is accepted where an option is not known', async () => {
    const { stderr } = await measure(['--condition', 'car.yaml', 'day.csv']);
    expect(stderr).toContain('--conditions FILE');
    expect(stderr).toContain('--json');
  });

  it('is none where help is asked for', async () => {
    const { exit, stdout } = await measure(['--help']);
    expect(exit).toBe(0);
    expect(stdout).toContain('--column');
  });
});

describeWithSharedData('recorded logs through the command', folder => {
  const every = ['obd', 'drives', 'nmea', 'gpx'].flatMap(name =>
    readdirSync(`${folder}/${name}`)
      .filter(file => /\.(csv|nmea|log|gpx)$/.test(file))
      .map(file => `${name}/${file}`),
  );

  it.each(every)('%s is measured, or refused with one clear line', async name => {
    const { exit, stdout, stderr } = await measure(['--json', name], {
      [name]: new Uint8Array(readFileSync(`${folder}/${name}`)),
    });
    expect([0, 1]).toContain(exit);
    expect(stderr).not.toMatch(/\n {4}at |log-not-measured/);
    if (exit === 1) expect(lines(stderr)).toHaveLength(1);
    else expect(answerOf(stdout).logs).toHaveLength(1);
  });
});
