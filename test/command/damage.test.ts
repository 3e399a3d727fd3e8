/** Logs damaged in every way a copy, a cable or an editor damages them: an answer or one clear line, nothing between. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runMeasure } from '../../pipeline/command/measure.ts';
import { runWith } from './fake-io.ts';

/** A launch at 4 m/s² to 108 km/h and a stop at 8 m/s², 25 readings a second. */
const speedAt = (s: number): number => Math.max(0, s < 7.5 ? 14.4 * s : Math.min(108, 108 - 28.8 * (s - 9)));
const rows = Array.from(
  { length: 600 },
  (_, i) => `${(i / 25).toFixed(3)},${speedAt(i / 25 - 6).toFixed(2)}`,
);
const LOG = `time_s,speed_kmh\n${rows.join('\n')}\n`;
const BYTES = new TextEncoder().encode(LOG);

const utf16 = (text: string, littleEndian: boolean): Uint8Array => {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  view.setUint16(0, 0xfeff, littleEndian);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i + 2, text.charCodeAt(i), littleEndian);
  return new Uint8Array(view.buffer);
};
const measure = (content: string | Uint8Array, name = 'day.csv') =>
  runWith(runMeasure, ['--json', name], { [name]: content });
const timesOf = (stdout: string): number[] =>
  (
    JSON.parse(stdout) as { logs: { runs: { speed_splits: { time_s: number }[] }[] }[] }
  ).logs[0]!.runs.flatMap(run => run.speed_splits.map(split => split.time_s));

describe('a log written by another system', () => {
  it.each([
    ['line ends of old computers', LOG.replaceAll('\n', '\r')],
    ['two bytes a character, low byte first', utf16(LOG, true)],
    ['two bytes a character, high byte first', utf16(LOG, false)],
  ])('with %s measures the same to the last digit', async (_, content) => {
    const { exit, stdout, stderr } = await measure(content);
    expect([exit, stderr]).toEqual([0, '']);
    expect(timesOf(stdout).length).toBeGreaterThan(10);
    expect(timesOf(stdout)).toEqual(timesOf((await measure(LOG)).stdout));
  });
});

describe('what is no log', () => {
  it.each([
    ['standard input without a byte', '', '-'],
    ['one line of 5 million digits', `time_s,speed_kmh\n0,${'9'.repeat(5_000_000)}\n`, 'day.csv'],
    ['a header alone', 'time_s,speed_kmh\n', 'day.csv'],
    ['one reading', 'time_s,speed_kmh\n0,0\n', 'day.csv'],
    ['readings at one instant', `time_s,speed_kmh\n${'1,5\n'.repeat(50)}`, 'day.csv'],
    ['time that runs backwards', `time_s,speed_kmh\n${rows.toReversed().join('\n')}\n`, 'day.csv'],
  ])('%s: exit 1, one line, valid JSON', async (_, content, name) => {
    const { exit, stdout, stderr } = await measure(content, name);
    expect(exit).toBe(1);
    expect(JSON.parse(stdout)).toEqual({ contract: 1, logs: [] });
    expect(stderr).toMatch(/^[^\n]+ \[[a-z-]+\]\n$/);
    expect(stderr.length).toBeLessThan(500);
  });

  it('a name that is empty is wrong usage, not the folder one stands in', async () => {
    const { exit, stdout, stderr } = await runWith(runMeasure, ['--json', '']);
    expect([exit, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^error: No log was named\.[^\n]+\n$/);
  });
});

type Damage = { readonly at: number } & (
  | { readonly kind: 'cut' }
  | { readonly kind: 'change'; readonly to: number }
  | { readonly kind: 'lose' | 'repeat'; readonly count: number }
  | { readonly kind: 'insert'; readonly bytes: Uint8Array }
);

describe('what a message quotes from a log', () => {
  it('cannot command the terminal or break the line', async () => {
    const { exit, stderr } = await measure(LOG.replace('0.040,0.00', '0.040,\u001b[2Jgone\u2028'));
    expect(exit).toBe(0);
    for (const line of stderr.split('\n')) expect(line).not.toMatch(/\p{Cc}|\p{Zl}|\p{Zp}/u);
    expect(stderr).toContain('\\x1b[2Jgone');
  });
});

describe('random damage', () => {
  const place = fc.nat(BYTES.length - 1);
  const damage: fc.Arbitrary<Damage> = fc.oneof(
    fc.record({ kind: fc.constant('cut' as const), at: place }),
    fc.record({ kind: fc.constant('change' as const), at: place, to: fc.integer({ min: 1, max: 255 }) }),
    fc.record({ kind: fc.constant('lose' as const), at: place, count: fc.nat(3000) }),
    fc.record({ kind: fc.constant('insert' as const), at: place, bytes: fc.uint8Array({ maxLength: 40 }) }),
    fc.record({ kind: fc.constant('repeat' as const), at: place, count: fc.nat(2000) }),
  );
  const damaged = (bytes: Uint8Array, one: Damage): Uint8Array => {
    const at = Math.min(one.at, bytes.length);
    const [before, after] = [bytes.subarray(0, at), bytes.subarray(at)];
    switch (one.kind) {
      case 'cut':
        return before;
      case 'change':
        return Uint8Array.from([...before, one.to, ...after.subarray(1)]);
      case 'lose':
        return Uint8Array.from([...before, ...after.subarray(one.count)]);
      case 'insert':
        return Uint8Array.from([...before, ...one.bytes, ...after]);
      case 'repeat':
        return Uint8Array.from([...before, ...after.subarray(0, one.count), ...after]);
    }
  };

  it('is measured or refused: valid JSON, whole lines with a code, no figure that is no number', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(damage, { minLength: 1, maxLength: 4 }), async damages => {
        const { exit, stdout, stderr } = await measure(damages.reduce(damaged, BYTES));
        const { logs } = JSON.parse(stdout) as { logs: object[] };
        expect(logs).toHaveLength(exit === 0 ? 1 : 0);
        expect([0, 1]).toContain(exit);
        const lines = stderr.split('\n').filter(line => line !== '');
        if (exit === 1) expect(lines).toHaveLength(1);
        for (const line of lines) {
          expect(line, 'no control character').not.toMatch(/\p{Cc}/u);
          expect(line).toMatch(/^day\.csv.*( \[[a-z-]+\]|: note: no runs found in this log)$/u);
          expect(line).not.toMatch(/undefined|\[object|log-not-measured|TypeError|RangeError/);
        }
        expect(stdout).not.toMatch(/null|NaN|Infinity/);
      }),
      { numRuns: 150 },
    );
  });
});
