import { describe, expect, it } from 'vitest';
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { motionToLog } from '../measurement/trajectories.ts';
import { driven, type Leg } from './legs.ts';

const STAND: Leg = ['hold', 4];
const RATES_HZ = [1, 5, 10, 25, 100];

describe.each(RATES_HZ)('runs at %d Hz', rateHz => {
  const runs = (...legs: Leg[]) => driven([STAND, ...legs, STAND], rateHz);

  it('a hard start is one, and its braking belongs to it', () => {
    expect(runs(['to', 110, 4], ['to', 108, 0.6], ['to', 0, 8])).toEqual([
      'standing-start complete with braking',
    ]);
  });

  it('a van that needs 15 s to 100 km/h is found', () => {
    expect(runs(['to', 50, 2.5], ['to', 75, 1.9], ['to', 101, 1.4], ['to', 0, 1.2])).toEqual([
      'standing-start complete',
    ]);
  });

  it('a start given up early is aborted', () => {
    expect(runs(['to', 45, 4], ['to', 0, 1])).toEqual(['standing-start aborted']);
  });

  it('gear changes do not divide a start', () => {
    const shift: Leg = ['hold', 0.5];
    expect(runs(['to', 40, 4], shift, ['to', 75, 3], shift, ['to', 120, 2.2], ['to', 0, 1.5])).toEqual([
      'standing-start complete',
    ]);
  });

  it('creeping, turning round and queueing are none', () => {
    expect(
      runs(
        ['to', 6, 0.8],
        ['hold', 3],
        ['to', 0, 0.8],
        STAND,
        ['to', 12, 1.5],
        ['to', 0, 1.5],
        STAND,
        ['to', 30, 1.2],
        ['hold', 4],
        ['to', 0, 1.5],
      ),
    ).toEqual([]);
  });

  const gentle: Leg[] = [
    ['to', 60, 1.2],
    ['hold', 20],
    ['to', 0, 1.2],
  ];

  it('a gentle drive-off is none beside harder starts, and the start of a log that holds nothing harder', () => {
    const launch: Leg[] = [
      ['to', 70, 2.2],
      ['to', 0, 1.2],
    ];
    expect(runs(...launch, STAND, ...gentle)).toEqual(['standing-start aborted']);
    // The same day in two files: nothing in the second tells the way back from a slow vehicle's attempt.
    expect(runs(...gentle)).toEqual(['standing-start aborted']);
  });

  it('a slow vehicle’s harder and softer methods all count, its way back does not', () => {
    const attempt = (mps2: number): Leg[] => [['to', 66, mps2], ['hold', 3], ['to', 0, 1.5], STAND];
    expect(
      runs(
        ...attempt(1.8),
        ...attempt(1.55),
        ...attempt(1.3),
        ['to', 55, 1.15],
        ['hold', 20],
        ['to', 0, 1.2],
      ),
    ).toEqual(Array<string>(3).fill('standing-start aborted'));
  });

  it('one very hard start does not put out the moderate ones', () => {
    const attempt = (mps2: number): Leg[] => [['to', 90, mps2], ['to', 0, 1.5], STAND];
    expect(runs(...attempt(7), ...attempt(2.2), ...attempt(1.4))).toEqual(
      Array<string>(3).fill('standing-start complete'),
    );
  });

  it('rolling along first and pulling later is no standing start', () => {
    expect(runs(['to', 17, 1.2], ['hold', 4], ['to', 62, 2.6], ['to', 0, 1.2])).toEqual([]);
  });

  it('creeping up and then going is not a standing start', () => {
    expect(runs(['to', 5, 0.7], ['hold', 5], ['to', 48, 3], ['to', 0, 1.5])).toEqual([]);
  });

  it('a hard pull from a steady roll is a rolling run', () => {
    expect(runs(['to', 45, 1.1], ['hold', 4], ['to', 125, 2.2], ['to', 0, 1.5])).toEqual([
      'rolling complete',
    ]);
  });

  it('hard braking from a drive is a run of its own, a gentle stop is none', () => {
    expect(runs(['to', 90, 1], ['hold', 10], ['to', 0, 7])).toEqual(['braking complete']);
    expect(runs(['to', 90, 1], ['hold', 10], ['to', 0, 2.5])).toEqual([]);
  });

  it('a day of them is found in order', () => {
    expect(
      runs(
        ['to', 105, 4],
        ['to', 0, 1.4],
        STAND,
        ['to', 20, 1],
        ['hold', 6],
        ['to', 0, 1],
        STAND,
        ['to', 40, 4],
        ['to', 0, 1],
        STAND,
        ['to', 45, 1.1],
        ['hold', 4],
        ['to', 110, 2.5],
        ['hold', 3],
        ['to', 0, 7],
      ),
    ).toEqual(['standing-start complete', 'standing-start aborted', 'rolling complete', 'braking complete']);
  });
});

describe('the edges of a log', () => {
  it('an empty, a single and a resting trace have no runs', () => {
    const at = (lastsS: number) => findRuns(logToTrace(motionToLog(() => 0, { rateHz: 10, lastsS })).trace);
    expect([at(0), at(0.1), at(30)]).toEqual([[], [], []]);
  });

  it('a log that begins on the move has no standing start there', () => {
    const { trace } = logToTrace(motionToLog(t => 5 + 4 * t, { rateHz: 10, lastsS: 8 }));
    expect(findRuns(trace).filter(({ kind }) => kind === 'standing-start')).toEqual([]);
  });
});
