import { resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Content, contentFilesToContent } from '../../pipeline/content/content.ts';
import type { ContentFiles } from '../../pipeline/content/files.ts';
import type { Log } from '../../pipeline/log/log.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { ASSEMBLE_TOOLS, loadPublication } from '../../pipeline/pipeline.ts';
import { ProblemError, problemToLine } from '../../pipeline/problem.ts';
import { type AssembleTools, contentToTests, testsToPublication } from '../../pipeline/result/assemble.ts';
import { optionToField } from '../../pipeline/result/match-logs.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { CAR, contentFiles, HOUSE, TEST } from '../content/valid.ts';
import { simulateDay } from '../simulate/day.ts';

/** As `loadPublication`, from files in memory. */
function contentToPublication(content: Content, files: ContentFiles, tools: AssembleTools): Publication {
  const assembled = contentToTests(content, files, tools);
  const publication = testsToPublication(content, assembled);
  if (!publication) throw new ProblemError(assembled.problems);
  return publication;
}

const TEST_FILE = 'content/tests/wren-dry/test.yaml';
const LOG_FILE = 'content/tests/wren-dry/logs/morning.csv';

/** What a log of these tests holds, written as JSON: its clock and when its runs begin. */
interface ToyLog {
  readonly clock?: Log['clock'];
  readonly runs?: readonly { beginsS: number; status?: 'aborted' }[];
  readonly headingDeg?: number;
}

const at = (time: string): Log['clock'] => ({ kind: 'utc', startMs: Date.parse(`2026-05-12T${time}+01:00`) });
/** Runs at 10:00:00, 10:10:20 and 10:41:07, to which the notes of `TEST` belong. */
const MORNING: ToyLog = {
  clock: at('09:50:00'),
  runs: [{ beginsS: 600 }, { beginsS: 1220 }, { beginsS: 3067 }],
};

/** Stand-ins for reading and measuring, so that only the putting together is tested. */
const TOYS: AssembleTools = {
  readLog: (file, bytes): Log => {
    const text = new TextDecoder().decode(bytes);
    if (!text.startsWith('{')) {
      throw new ProblemError({
        id: 'toy-bad',
        severity: 'error',
        what: 'Not a log',
        where: { file },
        mend: 'Mend it.',
      });
    }
    const toy = JSON.parse(text) as ToyLog;
    const n = 400;
    return {
      file: text,
      format: 'csv',
      timeS: Float64Array.from({ length: n }, (_, i) => i * 10),
      speedMps: new Float64Array(n).fill(10),
      speedSource: 'recorded',
      line: new Uint32Array(n),
      ...(toy.clock ? { clock: toy.clock } : {}),
      channels: toy.headingDeg === undefined ? {} : { headingDeg: new Float64Array(n).fill(toy.headingDeg) },
      warnings: [{ code: 'toy', line: 3, text: 'a toy warning' }],
    };
  },
  measureLog: log => {
    const toy = JSON.parse(log.file) as ToyLog;
    return {
      trace: {
        ...log,
        distanceM: log.timeS,
        rateHz: 10,
        noiseMps: 0.01,
        noiseFrom: 'standing',
        gaps: [],
        spikes: [],
      },
      measurements: (toy.runs ?? []).map(
        ({ beginsS, status }, i): RunMeasurement => ({
          run: {
            number: i + 1,
            kind: 'standing-start',
            status: status ?? 'complete',
            beginIndex: Math.floor(beginsS / 10),
            endIndex: Math.floor(beginsS / 10) + 2,
          },
          beginsS,
          endsS: beginsS + 20,
          speedSplits: [],
          distanceSplits: [],
          braking: [],
          peakMps2: 3,
          topMps: 30,
          flags: [],
        }),
      ),
      warnings: log.warnings,
    };
  },
  sha256: ASSEMBLE_TOOLS.sha256,
};

function publish(
  log: ToyLog | string = MORNING,
  changes: Parameters<typeof contentFiles>[0] = {},
): Publication {
  const text = typeof log === 'string' ? log : JSON.stringify(log);
  const files = contentFiles({ [LOG_FILE]: text, ...changes });
  return contentToPublication(contentFilesToContent(files), files, TOYS);
}
const firstTest = (publication: Publication): TestResult => {
  const test = publication.tests[0];
  if (!test) throw new Error('The publication has a test');
  return test;
};
const attemptsOf = (publication: Publication) => firstTest(publication).attempts;
const linesOf = (publication: Publication, id: string): string[] =>
  publication.problems.filter(problem => problem.id === id).map(problemToLine);

describe('a day whose notes and runs fit', () => {
  const publication = publish();

  it('has its attempts in the order of the day, with what the tester noted', () => {
    expect(
      attemptsOf(publication).map(a => [
        a.id,
        a.number,
        a.at,
        a.launchName,
        a.directionId,
        a.note,
        a.setAside,
      ]),
    ).toEqual([
      ['a01', 1, '10:00:00', 'Held on the brake', 'east', undefined, undefined],
      ['a02', 2, '10:10:20', 'From rest', 'west', 'Clean', undefined],
      ['a03', 3, '10:41:07', 'From rest', 'east', undefined, 'A hare'],
    ]);
  });

  it('tells only the warnings of the log, each once though reader and measurement both hand it on', () => {
    expect(publication.problems.map(problemToLine)).toEqual([
      `${LOG_FILE}:3: warning: a toy warning. The log is measured as it stands; the runs concerned are flagged. [log-warning-toy]`,
    ]);
    expect(firstTest(publication).warnings).toEqual(publication.problems);
  });

  it('takes the last reading before each attempt, whole', () => {
    const [first, second, third] = attemptsOf(publication).map(a => a.conditions);
    expect(first).toMatchObject({
      readAt: '09:30',
      temperatureK: 291.15,
      pressurePa: 100_000,
      relativeHumidity: 0.5,
      densityBy: 'cipm-2007',
      windMps: 2,
      surface: 'dry',
    });
    // Density by hand from the ideal gas of dry air, 287.05 J/(kg K): 1.1966; vapour makes it a little less.
    expect(first?.densityKgm3).toBeGreaterThan(1.185);
    expect(first?.densityKgm3).toBeLessThan(1.1966);
    expect(second?.readAt).toBe('09:30');
    expect(third).toMatchObject({ readAt: '10:30', surface: 'damp' });
  });

  it('turns wind and slope into the direction of the car', () => {
    const [east, west, late] = attemptsOf(publication).map(a => a.conditions);
    // Wind from 68°, 2 m/s: straight against a car heading 68°, from behind for one heading 248°.
    expect(east?.headwindMps).toBeCloseTo(2, 12);
    expect(west?.headwindMps).toBeCloseTo(-2, 12);
    // Wind from 158°, 4 m/s: from the right of a car heading 68°.
    expect(late?.headwindMps).toBeCloseTo(0, 12);
    expect(late?.crosswindMps).toBeCloseTo(4, 12);
    expect([east?.slopePct, west?.slopePct]).toEqual([0.2, -0.2]);
  });

  it('flags what lies beyond the limits of the house', () => {
    const flags = attemptsOf(publication).map(a => a.measurement.flags);
    expect(flags).toEqual([
      [],
      [],
      [
        {
          code: 'wind',
          text: 'mean of 4.0 m/s; the limit of this publication is 3 m/s',
          facts: { mps: 4, limitMps: 3 },
        },
      ],
    ]);
    const steep = publish(MORNING, {
      'content/house.yaml': HOUSE.replace('slope_pct: 0.5', 'slope_pct: 0.1'),
    });
    expect(attemptsOf(steep).map(a => a.measurement.flags.map(f => f.text).join())).toEqual([
      'the road rises 0.20 %; the limit of this publication is 0.1 %',
      'the road falls 0.20 %; the limit of this publication is 0.1 %',
      expect.stringContaining('rises'),
    ]);
  });

  it('carries the SHA-256 of each log', () => {
    // The hash of the empty input is that of FIPS 180-4's published example values.
    expect(TOYS.sha256(new Uint8Array())).toBe(
      'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    );
    expect(firstTest(publication).logSha256).toEqual({
      'logs/morning.csv': TOYS.sha256(new TextEncoder().encode(JSON.stringify(MORNING))),
    });
  });

  it('is the same whatever order the notes are written in', () => {
    const [head = '', tail = ''] = TEST.split('attempts:\n');
    const notes = tail.trimEnd().split('\n');
    fc.assert(
      fc.property(fc.shuffledSubarray(notes, { minLength: notes.length }), shuffled => {
        const text = `${head}attempts:\n${shuffled.join('\n')}\n`;
        expect(attemptsOf(publish(MORNING, { [TEST_FILE]: text }))).toEqual(attemptsOf(publication));
      }),
      { numRuns: 10 },
    );
  });

  it('passes a car named like a tag through as text', () => {
    const name = '<script>alert(1)</script>';
    const named = publish(MORNING, { 'content/cars/wren.yaml': CAR.replace('Ambler Wren 40', name) });
    expect(firstTest(named).car.name).toBe(name);
  });
});

describe('a day whose notes and runs do not fit', () => {
  it('tells a note without a run, with the nearest run', () => {
    const publication = publish(MORNING, {
      [TEST_FILE]: TEST.replace(
        'at: "10:41:00", launch: from-rest, direction: east, set_aside: A hare',
        'at: "10:45:00"',
      ),
    });
    expect(linesOf(publication, 'match-note-without-run')).toEqual([
      expect.stringContaining(
        'No run begins at 10:45:00; the nearest run in logs/morning.csv begins 10:41:07, 3 min 53 s off.',
      ),
    ]);
    expect(linesOf(publication, 'match-note-without-run')[0]).toMatch(/test\.yaml:22:11 .*: error:/);
  });

  it('tells a note whose run went to another note, with the line of that one', () => {
    const twice = TEST.replace('at: "10:10"', 'at: "10:00"');
    const taker = twice.split('\n').findIndex(line => line.includes('at: "10:00"')) + 1;
    expect(linesOf(publish(MORNING, { [TEST_FILE]: twice }), 'match-note-without-run')).toEqual([
      expect.stringContaining(
        `No run is left for the attempt at 10:00:05: the one in logs/morning.csv that begins 10:00:00 went to the attempt on line ${taker}.`,
      ),
    ]);
  });

  it('shows a run no note tells of, set aside, and warns once for the log', () => {
    const log = { ...MORNING, runs: [...MORNING.runs!, { beginsS: 3600 }, { beginsS: 3700 }] };
    const publication = publish(log);
    expect(attemptsOf(publication).map(a => a.setAside)).toEqual([
      undefined,
      undefined,
      'A hare',
      "not in the tester's notes",
      "not in the tester's notes",
    ]);
    const told = linesOf(publication, 'match-runs-without-note');
    expect(told).toHaveLength(1);
    expect(told[0]).toContain('run 4 at 10:50:00, run 5 at 10:51:40');
  });

  it('sets an aborted attempt aside and asks for the reason where none is written', () => {
    const runs = MORNING.runs!.map(run => ({ ...run, status: 'aborted' as const }));
    const publication = publish({ ...MORNING, runs });
    expect(attemptsOf(publication).map(a => a.setAside)).toEqual(['aborted', 'aborted', 'A hare']);
    expect(linesOf(publication, 'match-aborted-without-reason')).toHaveLength(2);
  });

  it('suspects the zone where one shift would bring all together, and shifts nothing', () => {
    const publication = publish(MORNING, { [TEST_FILE]: TEST.replace('"+01:00"', '"+02:00"') });
    const [hint] = linesOf(publication, 'match-clock-shift-likely');
    expect(hint).toContain('With the notes 1 h later, 3 of 3 would meet a run');
    expect(hint).toMatch(/test\.yaml:6:12 time_zone: warning/);
    expect(attemptsOf(publication).every(a => a.setAside === "not in the tester's notes")).toBe(true);
  });

  it('tells where the recorded heading goes against the noted direction', () => {
    expect(linesOf(publish({ ...MORNING, headingDeg: 70 }), 'match-heading-against-direction')).toEqual([
      expect.stringContaining('against the direction west (expected about 248 degrees, found 70 degrees)'),
    ]);
  });

  it('warns where two runs begin near one note', () => {
    const log = { ...MORNING, runs: [{ beginsS: 600 }, { beginsS: 625 }, ...MORNING.runs!.slice(1)] };
    expect(linesOf(publish(log), 'match-several-runs-near')[0]).toContain(
      'found run 1 at 10:00:00 in logs/morning.csv, run 2 at 10:00:25 in logs/morning.csv',
    );
  });

  it('a log without runs, and a log of another day, are warned of', () => {
    expect(linesOf(publish({ clock: at('09:50:00') }), 'match-log-without-runs')).toHaveLength(1);
    const other = {
      ...MORNING,
      clock: { kind: 'utc' as const, startMs: Date.parse('2026-05-20T08:50:00Z') },
    };
    const publication = publish(other);
    expect(linesOf(publication, 'match-log-of-other-day')[0]).toContain(
      'expected 2026-05-12, found 2026-05-20',
    );
    expect(attemptsOf(publication).map(a => a.at)).toEqual(['10:00:00', '10:10:20', '10:41:07']);
  });
});

describe('a log without a clock', () => {
  const bare: ToyLog = { runs: MORNING.runs! };

  it('is an error with the field to add, and its runs are still there', () => {
    const publication = publish(bare);
    expect(linesOf(publication, 'match-log-without-clock')[0]).toContain('Add starts_at:');
    expect(linesOf(publication, 'match-note-without-run')).toEqual([]);
    expect(attemptsOf(publication)).toHaveLength(3);
  });

  it('is placed by starts_at', () => {
    const text = TEST.replace('logs/morning.csv', 'logs/morning.csv\n    starts_at: "09:50:00"');
    const withoutTrace = (publication: Publication) =>
      attemptsOf(publication).map(({ trace: _, ...attempt }) => attempt);
    expect(withoutTrace(publish(bare, { [TEST_FILE]: text }))).toEqual(withoutTrace(publish()));
  });

  it('is matched by the numbers of its runs, and a wrong number says how many there are', () => {
    const text = TEST.replace('logs/morning.csv', 'logs/morning.csv\n    starts_at: "09:50"')
      .replace('at: "10:00:05"', 'run: 1')
      .replace('at: "10:10"', 'run: 2')
      .replace('at: "10:41:00"', 'run: 4');
    const publication = publish(bare, { [TEST_FILE]: text });
    expect(attemptsOf(publication).map(a => a.launchId)).toEqual(['brake-hold', 'from-rest', undefined]);
    expect(linesOf(publication, 'match-no-such-run')[0]).toContain(
      'There is no run 4 in logs/morning.csv (found 3 runs)',
    );
  });
});

describe('a bad log', () => {
  const two = TEST.replace('- file: logs/morning.csv', '- file: logs/morning.csv\n  - file: logs/bad.csv');

  it('does not lose the runs of the others, nor blame the notes that may be in it', () => {
    const text = two.replace('at: "10:41:00"', 'at: "11:41:00"');
    const publication = publish(MORNING, { [TEST_FILE]: text, 'content/tests/wren-dry/logs/bad.csv': 'bad' });
    expect(attemptsOf(publication)).toHaveLength(3);
    expect(publication.problems.filter(p => p.severity === 'error').map(p => p.id)).toEqual(['toy-bad']);
    expect(linesOf(publication, 'match-attempts-of-unread-log')[0]).toContain('1 attempt met no run');
  });

  it('does not lose the other tests', () => {
    const other = 'content/tests/wren-wet';
    const publication = publish('bad', {
      [`${other}/test.yaml`]: TEST,
      [`${other}/article.md`]: 'Wet.\n',
      [`${other}/logs/morning.csv`]: JSON.stringify(MORNING),
    });
    expect(publication.tests.map(test => [test.id, test.attempts.length])).toEqual([
      ['wren-dry', 0],
      ['wren-wet', 3],
    ]);
  });

  it('two logs of the same time are warned of where notes do not name theirs', () => {
    const publication = publish(MORNING, {
      [TEST_FILE]: two,
      'content/tests/wren-dry/logs/bad.csv': JSON.stringify(MORNING),
    });
    expect(linesOf(publication, 'match-logs-overlap')).toHaveLength(1);
    expect(attemptsOf(publication).filter(a => a.setAside === "not in the tester's notes")).toHaveLength(3);
  });
});

describe('what a reader proposes for a command line', () => {
  it.each([
    [
      'Say which: --column time=NAME:s',
      'Say which: columns: { time: { name: NAME, unit: s } } under this log in test.yaml',
    ],
    [
      'Say it: --column "speed=GPS speed:km/h", or m/s.',
      'Say it: columns: { speed: { name: "GPS speed", unit: km/h } } under this log in test.yaml, or m/s.',
    ],
    ['Choose: --column speed=v.', 'Choose: columns: { speed: { name: v } } under this log in test.yaml.'],
    ['Copy it again.', 'Copy it again.'],
  ])('%s', (option, field) => {
    expect(optionToField(option)).toBe(field);
  });

  it('can be followed: the field it names reads the log', () => {
    const log = 'a,b\n0,0\n0.1,0\n0.2,1\n0.3,2\n';
    const publishWith = (columns: string) => {
      const text = TEST.replace('logs/morning.csv', `logs/morning.csv\n    starts_at: "09:50:00"${columns}`);
      const files = contentFiles({ [TEST_FILE]: text, [LOG_FILE]: log });
      return contentToPublication(contentFilesToContent(files), files, ASSEMBLE_TOOLS);
    };
    expect(publishWith('').problems.find(p => p.id === 'log-no-time-column')?.mend).toContain(
      'columns: { time: { name: NAME, unit: s } }',
    );
    const mended = publishWith(
      '\n    columns: { time: { name: a, unit: s }, speed: { name: b, unit: km/h } }',
    );
    expect(mended.problems.filter(p => p.id.startsWith('log-') && p.severity === 'error')).toEqual([]);
    expect(Object.keys(firstTest(mended).logSha256)).toEqual(['logs/morning.csv']);
  });
});

describe('the publication', () => {
  it('has its newest test first', () => {
    const test = (published: string) => TEST.replace('time_zone', `published: "${published}"\ntime_zone`);
    const more = (id: string, published: string) => ({
      [`content/tests/${id}/test.yaml`]: test(published),
      [`content/tests/${id}/article.md`]: 'x\n',
      [`content/tests/${id}/logs/morning.csv`]: JSON.stringify(MORNING),
    });
    const publication = publish(MORNING, { ...more('b', '2026-07-01'), ...more('a', '2026-06-01') });
    expect(publication.tests.map(({ id }) => id)).toEqual(['b', 'a', 'wren-dry']);
  });

  it('without a house is every problem at once', () => {
    const files = contentFiles({ 'content/house.yaml': undefined, [LOG_FILE]: 'bad' });
    const all = () => contentToPublication(contentFilesToContent(files), files, TOYS);
    expect(all).toThrow(ProblemError);
    try {
      all();
    } catch (error) {
      expect((error as ProblemError).problems.map(p => p.id).sort()).toEqual([
        'content-missing-file',
        'match-attempts-of-unread-log',
        'toy-bad',
      ]);
    }
  });
});

describe('with the real measurements', () => {
  it('every complete start of a simulated day meets its note, and nothing else does', () => {
    const startMs = Date.parse('2026-05-12T07:55:00Z');
    const day = simulateDay({
      seed: 5,
      rateHz: 20,
      noiseMps: 0.02,
      runs: 5,
      aborted: 0,
      clock: { kind: 'utc', startMs },
    });
    const starts = day.truth.filter(run => run.kind === 'standing-start' && run.status === 'complete');
    const clock = (s: number) => new Date(startMs + 3_600_000 + s * 1000).toISOString().slice(11, 19);
    const notes = starts.map((run, i) => `  - { at: "${clock(run.beginsS + (i % 2 === 0 ? 20 : -20))}" }`);
    const text = TEST.replace(/attempts:[\s\S]*/, `attempts:\n${notes.join('\n')}\n`);
    const files = contentFiles({ [TEST_FILE]: text });
    const publication = contentToPublication(contentFilesToContent(files), files, {
      ...ASSEMBLE_TOOLS,
      readLog: () => day.toLog(),
    });
    const kept = attemptsOf(publication).filter(attempt => attempt.setAside === undefined);
    expect(kept.map(attempt => attempt.at)).toEqual(
      starts.map(run => expect.stringMatching(new RegExp(`${clock(run.beginsS)}|${clock(run.beginsS - 1)}`))),
    );
    expect(publication.problems.filter(problem => problem.severity === 'error')).toEqual([]);
  });

  it('every attempt noted in the content of the repository meets a run', async () => {
    const publication = await loadPublication(resolve(import.meta.dirname, '../..'));
    expect(publication.tests.length).toBeGreaterThan(0);
    for (const test of publication.tests) {
      expect(test.attempts.length, test.id).toBeGreaterThanOrEqual(test.content.attempts.length);
      expect(test.attempts.filter(a => a.setAside === undefined).length, test.id).toBe(
        test.content.attempts.filter(a => a.set_aside === undefined).length,
      );
    }
    expect(
      publication.problems.filter(problem => problem.id.startsWith('match-')).map(problemToLine),
    ).toEqual([]);
  });
});
