import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DAY_S } from '../../pipeline/content/calendar.ts';
import type { LogClock } from '../../pipeline/log/log.ts';
import {
  clockDifferenceS,
  type FoundRun,
  likelyShiftS,
  MATCH_TOLERANCE_S,
  matchNotesToRuns,
  missS,
  type Note,
  nearestRun,
} from '../../pipeline/result/match.ts';
import { logToStart } from '../../pipeline/result/match-clock.ts';

const hour = (h: number, m = 0, s = 0): number => h * 3600 + m * 60 + s;
const run = (beginsS: number, number = 1, log = 'a.csv'): FoundRun => ({ log, number, beginsS });
const note = (atS: number): Note => ({ atS });

/** Runs within one morning, crowded enough that notes can meet several of them. */
const seconds = fc.integer({ min: hour(9), max: hour(9, 5) });
const crowdedRuns = fc.uniqueArray(seconds, { maxLength: 6 }).map(all => all.map((s, i) => run(s, i + 1)));
const crowdedNotes = fc.uniqueArray(seconds, { maxLength: 6 }).map(all => all.map(note));

/** Every way of pairing, tried: most pairs, then least distance. */
function bestByTrying(
  notes: readonly Note[],
  runs: readonly FoundRun[],
): { pairs: number; distanceS: number } {
  const [first, ...rest] = notes;
  if (first === undefined) return { pairs: 0, distanceS: 0 };
  let best = bestByTrying(rest, runs);
  for (const [i, candidate] of runs.entries()) {
    const apart = Math.abs(candidate.beginsS! - first.atS!);
    if (apart > MATCH_TOLERANCE_S) continue;
    const others = bestByTrying(rest, [...runs.slice(0, i), ...runs.slice(i + 1)]);
    const here = { pairs: others.pairs + 1, distanceS: others.distanceS + apart };
    if (here.pairs > best.pairs || (here.pairs === best.pairs && here.distanceS < best.distanceS))
      best = here;
  }
  return best;
}

describe('notes and runs matched by the clock', () => {
  it('are as many and as near as trying every way can make them', () => {
    fc.assert(
      fc.property(crowdedNotes, crowdedRuns, (notes, runs) => {
        const { runOfNote } = matchNotesToRuns(notes, runs);
        const met = runOfNote.flatMap((r, n) =>
          r === undefined ? [] : [Math.abs(runs[r]!.beginsS! - notes[n]!.atS!)],
        );
        expect({ pairs: met.length, distanceS: met.reduce((sum, s) => sum + s, 0) }).toEqual(
          bestByTrying(notes, runs),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('are in one pair at most, and both sides of a pair agree', () => {
    fc.assert(
      fc.property(crowdedNotes, crowdedRuns, (notes, runs) => {
        const { noteOfRun, runOfNote } = matchNotesToRuns(notes, runs);
        for (const [r, n] of noteOfRun.entries()) if (n !== undefined) expect(runOfNote[n]).toBe(r);
        for (const [n, r] of runOfNote.entries()) if (r !== undefined) expect(noteOfRun[r]).toBe(n);
      }),
    );
  });

  it('do not depend on the order of the notes', () => {
    const spread = fc
      .uniqueArray(fc.integer({ min: 0, max: 40 }), { minLength: 2, maxLength: 10 })
      .map(all => all.map(n => note(hour(9) + n * 61)));
    const jitter = fc.array(fc.integer({ min: -29, max: 29 }), { minLength: 10, maxLength: 10 });
    fc.assert(
      fc.property(
        spread.chain(notes =>
          fc.tuple(fc.constant(notes), fc.shuffledSubarray(notes, { minLength: notes.length })),
        ),
        jitter,
        ([notes, shuffled], off) => {
          const runs = notes.map((n, i) => run(n.atS! + off[i]!, i + 1));
          const timeOf = (all: readonly Note[]) =>
            matchNotesToRuns(all, runs).noteOfRun.map(n => (n === undefined ? undefined : all[n]?.atS));
          expect(timeOf(shuffled)).toEqual(timeOf(notes));
        },
      ),
    );
  });

  it('do not depend on the hour, nor on midnight lying between them', () => {
    fc.assert(
      fc.property(crowdedNotes, crowdedRuns, fc.integer({ min: 0, max: DAY_S }), (notes, runs, shift) => {
        const later = matchNotesToRuns(
          notes.map(n => note((n.atS! + shift) % DAY_S)),
          runs.map(r => ({ ...r, beginsS: r.beginsS! + shift })),
        );
        expect(later).toEqual(matchNotesToRuns(notes, runs));
      }),
    );
  });

  it.each([
    [30, true],
    [-30, true],
    [30.01, false],
    [-30.01, false],
  ])('meet at %d s: %s', (off, met) => {
    const { noteOfRun } = matchNotesToRuns([note(hour(10))], [run(hour(10) + off)]);
    expect(noteOfRun[0] !== undefined).toBe(met);
  });

  it.each([
    [hour(10, 22, 0), true],
    [hour(10, 22, 59.9), true],
    [hour(10, 21, 31), true],
    [hour(10, 23, 29), true],
    [hour(10, 21, 29), false],
    [hour(10, 23, 31), false],
  ])('a time written to the minute, 10:22, stands for the whole minute: run at %d s met %s', (at, met) => {
    const { noteOfRun } = matchNotesToRuns([{ atS: hour(10, 22), toTheMinute: true }], [run(at)]);
    expect(noteOfRun[0] !== undefined).toBe(met);
  });

  it('of two runs within the noted minute the one nearer to its middle is taken', () => {
    const minute: Note = { atS: hour(10, 22), toTheMinute: true };
    const runs = [run(hour(10, 22, 2), 1), run(hour(10, 22, 28), 2), run(hour(10, 22, 55), 3)];
    expect(matchNotesToRuns([minute], runs).runOfNote).toEqual([1]);
  });

  it('two notes of one minute take its runs in the order they are written', () => {
    const minute: Note = { atS: hour(10, 22), toTheMinute: true };
    const runs = [run(hour(10, 22, 50), 2), run(hour(10, 22, 5), 1)];
    expect(matchNotesToRuns([minute, minute], runs).runOfNote).toEqual([1, 0]);
  });

  it('a note that names its log takes a run of that log, though another is nearer', () => {
    const runs = [run(hour(10), 1, 'a.csv'), run(hour(10, 0, 10), 1, 'b.csv')];
    expect(matchNotesToRuns([note(hour(10)), { atS: hour(10), log: 'b.csv' }], runs).runOfNote).toEqual([
      0, 1,
    ]);
  });

  it('a note with a number takes that run whatever the clock says, and leaves it to no other', () => {
    const runs = [run(hour(10), 1), run(hour(11), 2), { log: 'b.csv', number: 1 }];
    const notes: Note[] = [
      note(hour(11)),
      { run: 2, log: 'a.csv' },
      { run: 1, log: 'b.csv', atS: hour(3) },
      { run: 7, log: 'a.csv' },
      { run: 2, log: 'a.csv' },
    ];
    expect(matchNotesToRuns(notes, runs).runOfNote).toEqual([undefined, 1, 2, undefined, undefined]);
  });

  it('the nearest run is told whatever its distance, over midnight too', () => {
    const runs = [run(hour(9)), run(hour(24, 5), 2)];
    expect(nearestRun(note(hour(0, 1)), runs)?.number).toBe(2);
    expect(missS(note(hour(0, 1)), hour(24, 5))).toBe(240);
    expect(clockDifferenceS(hour(23, 59), hour(0, 1))).toBe(-120);
  });
});

describe('a wrong zone', () => {
  it('shows as one shift under which the notes meet their runs', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -47, max: 47 }).filter(q => q !== 0),
        quarters => {
          // Gaps that differ by more than the tolerance, so that only the true shift fits all.
          const times = [0, 400, 900, 1530, 2270, 3110].map(s => hour(9) + s);
          const notes = times.map(s => note((((s - quarters * 900) % DAY_S) + DAY_S) % DAY_S));
          expect(
            likelyShiftS(
              notes,
              times.map((s, i) => run(s, i + 1)),
            ),
          ).toEqual({
            shiftS: quarters * 900,
            met: 6,
          });
        },
      ),
    );
  });

  it('is not suspected for a single note', () => {
    expect(likelyShiftS([note(hour(9))], [run(hour(10))])).toBeUndefined();
  });
});

describe('the clock of a log at the road', () => {
  const day = (date: string, zoneS: number, readingsS: readonly number[] = []) => ({
    dateMs: Date.parse(`${date}T00:00:00Z`),
    zoneS,
    readingsS,
  });
  const utc = (text: string): LogClock => ({ kind: 'utc', startMs: Date.parse(text) });
  const csv = (clock: LogClock) => ({ clock, format: 'csv' as const });

  it('puts an instant into the zone: RFC 3339, section 5.8, 1996-12-19T16:39:57-08:00 is 00:39:57Z', () => {
    const start = logToStart(csv(utc('1996-12-20T00:39:57Z')), day('1996-12-19', -8 * 3600), undefined);
    expect(start).toEqual({ startsS: hour(16, 39, 57) });
  });

  it('tells the same time of day in every zone for the same hour at the road', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -56, max: 56 }),
        fc.integer({ min: 0, max: DAY_S - 1 }),
        (quarters, s) => {
          const zoneS = quarters * 900;
          const startMs = Date.parse('2026-05-12T00:00:00Z') + (s - zoneS) * 1000;
          expect(logToStart(csv({ kind: 'utc', startMs }), day('2026-05-12', zoneS), undefined)).toEqual({
            startsS: s,
          });
        },
      ),
    );
  });

  it('takes hours without a zone as the clock at the road, but those of NMEA as UTC', () => {
    const clock: LogClock = { kind: 'time-of-day', startMs: hour(9) * 1000 };
    const at = day('2026-05-12', 3600);
    expect(logToStart({ clock, format: 'csv' }, at, undefined).startsS).toBe(hour(9));
    expect(logToStart({ clock, format: 'nmea' }, at, undefined).startsS).toBe(hour(10));
  });

  it('lets starts_at speak only where the log itself says less, and tells where it differs', () => {
    const at = day('2026-05-12', 0);
    const hours: LogClock = { kind: 'time-of-day', startMs: hour(9) * 1000 };
    expect(logToStart({ format: 'csv' }, at, undefined)).toEqual({});
    expect(logToStart({ format: 'csv' }, at, hour(8))).toEqual({ startsS: hour(8) });
    expect(logToStart({ clock: hours, format: 'csv' }, at, hour(8))).toEqual({ startsS: hour(8) });
    expect(logToStart(csv(utc('2026-05-12T09:00:00Z')), at, hour(8))).toEqual({
      startsS: hour(9),
      startsAtUnused: true,
    });
    expect(logToStart(csv(utc('2026-05-12T09:00:00Z')), at, hour(9, 0, 20))).toEqual({ startsS: hour(9) });
  });

  it('lets a log run on after midnight, and says by how many days another is off', () => {
    const at = day('2026-05-12', 0);
    expect(logToStart(csv(utc('2026-05-13T00:10:00Z')), at, undefined)).toEqual({ startsS: hour(24, 10) });
    expect(logToStart(csv(utc('2026-05-11T23:50:00Z')), at, undefined)).toEqual({ startsS: -600 });
    expect(logToStart(csv(utc('2026-05-15T09:00:00Z')), at, undefined)).toEqual({
      startsS: hour(9),
      daysOff: 3,
    });
    expect(logToStart(csv(utc('2006-09-26T09:00:00Z')), at, undefined).daysOff).toBe(-1024 * 7);
  });

  it('puts hours without a date after midnight where the readings go on past it', () => {
    const clock: LogClock = { kind: 'time-of-day', startMs: 600_000 };
    const over = day('2026-05-12', 0, [hour(22), hour(25)]);
    expect(logToStart({ clock, format: 'csv' }, over, undefined).startsS).toBe(hour(24, 10));
    expect(logToStart({ clock, format: 'csv' }, day('2026-05-12', 0, [hour(9)]), undefined).startsS).toBe(
      600,
    );
  });
});
