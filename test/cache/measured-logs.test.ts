import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { digestOf } from '../../pipeline/cache/digest.ts';
import { keepingTools } from '../../pipeline/cache/measured-logs.ts';
import { openStore } from '../../pipeline/cache/store.ts';
import { shiftsOf } from '../../pipeline/measurement/shifts.ts';
import { ASSEMBLE_TOOLS } from '../../pipeline/pipeline.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { DAY, WRITTEN_DAYS } from '../command/written-day.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenground-logs-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const BYTES = new TextEncoder().encode(WRITTEN_DAYS[0]!.text);

/** The real tools, and how often each was asked. */
function counted() {
  const asked = { read: 0, measured: 0 };
  const tools = {
    ...ASSEMBLE_TOOLS,
    readLog: (...args: Parameters<typeof ASSEMBLE_TOOLS.readLog>) => {
      asked.read += 1;
      return ASSEMBLE_TOOLS.readLog(...args);
    },
    measureLog: (...args: Parameters<typeof ASSEMBLE_TOOLS.measureLog>) => {
      asked.measured += 1;
      return ASSEMBLE_TOOLS.measureLog(...args);
    },
  };
  return { tools, asked };
}

describe('logs measured once', () => {
  it('come to the same, made or kept, to the last bit of every reading and figure', () => {
    const plainLog = ASSEMBLE_TOOLS.readLog('day.csv', BYTES, {});
    const plain = ASSEMBLE_TOOLS.measureLog(plainLog, {});
    expect(plain.measurements.length).toBeGreaterThanOrEqual(3);
    for (const expected of [
      { read: 1, measured: 1 },
      { read: 0, measured: 0 },
    ]) {
      const { tools, asked } = counted();
      const kept = keepingTools(tools, openStore(join(folder, 'same')), () => BYTES);
      const log = kept.readLog('day.csv', BYTES, {});
      const measured = kept.measureLog(log, {});
      expect(asked).toEqual(expected);
      expect(digestOf(log.warnings)).toBe(digestOf(plainLog.warnings));
      expect(log.clock).toEqual(plainLog.clock);
      expect(digestOf(measured.measurements)).toBe(digestOf(plain.measurements));
      expect(digestOf(measured.warnings)).toBe(digestOf(plain.warnings));
      expect(measured.trace.timeS.length).toBe(DAY.samples.timeS.length);
      for (const key of Object.keys(plain.trace) as (keyof typeof plain.trace)[]) {
        expect(digestOf(measured.trace[key]), key).toBe(digestOf(plain.trace[key]));
      }
    }
  });

  it('know the gear changes of each run, which are not looked for again', () => {
    const place = join(folder, 'shifts');
    const plain = ASSEMBLE_TOOLS.measureLog(ASSEMBLE_TOOLS.readLog('day.csv', BYTES, {}), {});
    const expected = plain.measurements.map(each => shiftsOf(plain.trace, each));
    expect(expected.some(({ shifts }) => shifts.length > 0)).toBe(true);
    for (let time = 0; time < 2; time += 1) {
      const store = openStore(place);
      let reads = 0;
      const readSync = (key: string): Uint8Array | undefined => {
        reads += 1;
        return store.readSync(key);
      };
      const kept = keepingTools(ASSEMBLE_TOOLS, { ...store, readSync }, () => BYTES);
      const { trace, measurements } = kept.measureLog(kept.readLog('day.csv', BYTES, {}), {});
      const before = reads;
      // As a test asks for them: of measurements that got more flags.
      expect(measurements.map(each => shiftsOf(trace, { ...each, flags: [] }))).toEqual(expected);
      expect(reads).toBe(before);
    }
  });

  it('are measured again where the log, or what is asked of it, is another', () => {
    const store = openStore(join(folder, 'asked'));
    const { tools, asked } = counted();
    const kept = keepingTools(tools, store, () => BYTES);
    kept.measureLog(kept.readLog('day.csv', BYTES, {}), {});
    kept.measureLog(kept.readLog('day.csv', BYTES, {}), { lowRateHz: 25 });
    kept.measureLog(kept.readLog('other.csv', BYTES, {}), {});
    const changed = new TextEncoder().encode(`${WRITTEN_DAYS[0]!.text}99999,0\n`);
    kept.measureLog(kept.readLog('day.csv', changed, {}), {});
    expect(asked.measured).toBe(4);
    kept.measureLog(kept.readLog('day.csv', BYTES, {}), { lowRateHz: 25 });
    expect(asked.measured).toBe(4);
  });

  it('are measured again where what was kept is damaged', () => {
    const place = join(folder, 'damaged');
    const first = counted();
    const plain = keepingTools(first.tools, openStore(place), () => BYTES);
    const before = digestOf(plain.measureLog(plain.readLog('day.csv', BYTES, {}), {}).measurements);
    for (const entry of readdirSync(place, { recursive: true, withFileTypes: true })) {
      if (entry.isFile()) writeFileSync(join(entry.parentPath, entry.name), 'torn');
    }
    const { tools, asked } = counted();
    const kept = keepingTools(tools, openStore(place), () => BYTES);
    const { measurements, trace } = kept.measureLog(kept.readLog('day.csv', BYTES, {}), {});
    expect(digestOf(measurements)).toBe(before);
    expect(trace.speedMps.length).toBe(DAY.samples.timeS.length);
    expect(asked).toEqual({ read: 1, measured: 1 });
  });

  it('have the same readings again where nothing can be kept, and tell where the log is another by then', () => {
    writeFileSync(join(folder, 'file'), '');
    let now: Uint8Array | undefined = BYTES;
    const kept = keepingTools(ASSEMBLE_TOOLS, openStore(join(folder, 'file')), () => now);
    const { trace } = kept.measureLog(kept.readLog('day.csv', BYTES, {}), {});
    const first = digestOf(trace.speedMps);
    // Others take the place of its readings in memory.
    const others = (): void => {
      for (let i = 0; i < 8; i += 1) {
        const other = kept.readLog(`${i}.csv`, BYTES, {});
        expect(other.speedMps.length).toBe(DAY.samples.timeS.length);
      }
    };
    others();
    expect(digestOf(trace.speedMps)).toBe(first);
    others();
    now = undefined;
    expect(() => trace.speedMps).toThrow('day.csv changed');
  });

  it('that cannot be read are told each time', () => {
    const kept = keepingTools(ASSEMBLE_TOOLS, openStore(join(folder, 'faulty')), () => undefined);
    for (const _ of [1, 2]) {
      expect(() => kept.readLog('day.csv', new TextEncoder().encode('nothing'), {})).toThrow(ProblemError);
    }
  });
});
