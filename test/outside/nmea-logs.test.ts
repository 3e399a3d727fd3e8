import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { KNOT_MPS } from '../../pipeline/units.ts';
import { describeWithSharedData } from './shared-data.ts';

/*
 * Receivers' logs and what a long-established decoder made of each: gpsd test/daemon, as carried in
 * ntpsec/gpsd at 46977faa, BSD 2-clause. A `.chk` holds the sentences with the decoder's reports (TPV) between.
 */

interface Report {
  readonly timeMs: number;
  readonly speedMps: number;
}

interface Decoded {
  readonly compared: readonly Report[];
  /** Reports after a VTG that contradicts the RMC before it. */
  readonly contradicted: number;
}

/**
 * The decoder's reports that repeat a receiver's own speed. Left out, and why:
 * reports before the RMC of their time (the decoder then works a speed out from two positions);
 * reports after a VTG whose knots are not those of the RMC before it (a chart plotter sends two instants
 * under one time: the decoder prints the VTG, this reader keeps to the sentence that carries the time).
 */
function decoderReports(chk: string): Decoded {
  const compared: Report[] = [];
  let contradicted = 0;
  let rmcTime = '';
  let rmcKnots = '';
  let vtgDiffers = false;
  for (const line of chk.split(/\r?\n/)) {
    const fields = line.split(',');
    if (/^\$..RMC,/.test(line) && fields[2] === 'A') {
      rmcTime = fields[1]!;
      rmcKnots = fields[7]!;
      vtgDiffers = false;
    } else if (/^\$..VTG,/.test(line) && fields[5] !== '') {
      vtgDiffers = Number(fields[5]) !== Number(rmcKnots);
    } else if (line.startsWith('{"class":"TPV"')) {
      const { time, speed } = JSON.parse(line) as { time?: string; speed?: number };
      if (time === undefined || speed === undefined) continue;
      if (time.slice(11, 19).replaceAll(':', '') !== rmcTime.slice(0, 6)) continue;
      if (Number(time.slice(17, 23)) !== Number(rmcTime.slice(4))) continue;
      if (vtgDiffers) contradicted++;
      else compared.push({ timeMs: Date.parse(time), speedMps: speed });
    }
  }
  return { compared, contradicted };
}

const sampleAt = (log: Log): ReadonlyMap<number, number> =>
  new Map([...log.timeS].map((timeS, i) => [Math.round(log.clock!.startMs + timeS * 1000), i]));

const warningOf = (log: Log, code: string) => log.warnings.find(warning => warning.code === code);

describeWithSharedData('recorded NMEA 0183 against a long-established decoder', folder => {
  const read = (name: string) => readLog(name, readFileSync(join(folder, 'nmea', name)));
  const decoded = (name: string) => decoderReports(readFileSync(join(folder, 'nmea', `${name}.chk`), 'utf8'));

  // Samples the reader gives, those of them the decoder reports with the receiver's own speed, and the decimals
  // of knots in its RMC.
  it.each([
    // VTG contradicts RMC in 22 epochs; in 38 the decoder prints nothing between an RMC and the next position.
    ['bundg_zeus_9.log', 146, 95, 1],
    ['cat-ms352.log', 40, 40, 3],
    // Its first fix has a VTG and an RMC of 0.00 kn, for which the decoder prints nothing.
    ['haicom-305N.log', 68, 67, 2],
    ['meinberg-gps164.log', 70, 70, 1],
    ['nmea-rtk.log', 122, 122, 3],
    ['quectel-eg25-g.log', 23, 23, 1],
    ['quectel-l76k-nmea.log', 150, 150, 2],
    ['tomtom-mkII.log', 4, 4, 4],
    ['ublox-8.log', 72, 72, 3],
  ])(
    'gives the speeds of %s, epoch by epoch: %i samples, %i of them reported',
    (name, samples, reported, knotDecimals) => {
      const log = read(name);
      const { compared } = decoded(name);
      const at = sampleAt(log);
      // The decoder turns the RMC's knots into m/s with 3 decimals: a half of the last is all that may differ.
      // Where the reader took the km/h of the same instant, both printed fields are half a digit from the truth.
      const knotsStepMps = 10 ** -knotDecimals * KNOT_MPS;
      const fromKmh = Math.abs(log.speedStepMps! / knotsStepMps - 1) > 1e-9;
      const tolerance = 0.0005 + (fromKmh ? (knotsStepMps + log.speedStepMps!) / 2 : 0) + 1e-9;
      const seen = new Set<number>();
      for (const { timeMs, speedMps } of compared) {
        const index = at.get(timeMs);
        expect(index, `a sample at ${new Date(timeMs).toISOString()}`).toBeDefined();
        expect(Math.abs(log.speedMps[index!]! - speedMps)).toBeLessThanOrEqual(tolerance);
        seen.add(index!);
      }
      expect(log.timeS).toHaveLength(samples);
      expect(seen.size).toBe(reported);
    },
  );

  it('leaves out the 9 wrong checksums of a drive, with their lines', () => {
    // google/gps-measurement-tools, NmeaUtils/example, at 42b7cc7d, Apache 2.0. 826 RMC sentences.
    const log = read('road-mountain-view.nmea');
    const bytes = readFileSync(join(folder, 'nmea', 'road-mountain-view.nmea'), 'latin1').split('\n');
    const wrong = bytes.flatMap((line, i) => {
      const found = /^\$([^*]*)\*(..)/.exec(line);
      const sum = [...(found?.[1] ?? '')].reduce((x, character) => x ^ character.charCodeAt(0), 0);
      return found && sum !== Number.parseInt(found[2]!, 16) ? [i + 1] : [];
    });
    expect(wrong).toHaveLength(9);
    expect(warningOf(log, 'bad-checksum')).toMatchObject({ line: wrong[0] });
    expect(warningOf(log, 'bad-checksum')?.text).toContain(
      `9 times (lines ${wrong.slice(0, 3).join(', ')} and more)`,
    );
    expect(log.timeS).toHaveLength(826);
  });

  it('reads a drive through a town, each valid RMC a sample on its own date and time', () => {
    // GENIVI/positioning, log-replayer/logs/nmea, at 7f51cd27, MPL 2.0. 790 RMC sentences, 16 without a fix.
    const log = read('road-regensburg.nmea');
    expect(log.timeS).toHaveLength(774);
    expect(new Date(log.clock!.startMs).toISOString()).toBe('2010-04-11T16:57:44.000Z');
    expect(warningOf(log, 'no-fix')?.text).toContain('16 times');
    expect(Math.max(...log.speedMps)).toBeCloseTo(56.4 * KNOT_MPS, 9);
    expect(log.speedStepMps).toBeCloseTo(0.1 * KNOT_MPS, 12);
  });

  it('tells the sentences without a fix and the one cut off', () => {
    expect(warningOf(read('haicom-305N.log'), 'no-fix')?.line).toBe(12);
    expect(warningOf(read('meinberg-gps164.log'), 'no-fix')?.text).toContain('20 times');
    expect(warningOf(read('ublox-8.log'), 'no-checksum')?.line).toBe(1019);
  });
});
