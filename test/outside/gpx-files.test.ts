import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { type CheckValue, checkValue, describeCheckValues } from './check-values.ts';
import { describeWithSharedData } from './shared-data.ts';

/** A track of three points whose children stand in the order of a published schema. */
function trackInOrder(version: string, order: readonly string[]): Uint8Array {
  const text = (name: string, i: number): string => {
    switch (name) {
      case 'time':
        return `2026-05-01T10:00:0${i}Z`;
      case 'extensions':
        return `<x:speed xmlns:x="urn:example">${10 + i}</x:speed>`;
      case 'speed':
        return String(10 + i);
      case 'fix':
        return '3d';
      case 'link':
      case 'name':
      case 'cmt':
      case 'desc':
      case 'src':
      case 'sym':
      case 'type':
        return 'x';
      default:
        return String(5 + i);
    }
  };
  const points = [0, 1, 2].map(
    i =>
      `<trkpt lat="52.${i}" lon="1">${order.map(name => `<${name}>${text(name, i)}</${name}>`).join('')}</trkpt>`,
  );
  const gpx = `<gpx version="${version}"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
  return new TextEncoder().encode(gpx);
}

const readsInOrder = (version: string) => (entry: CheckValue) => {
  const log = readLog('order.gpx', trackInOrder(version, entry.expected as readonly string[]));
  expect([...log.speedMps]).toEqual([10, 11, 12]);
  expect([...log.timeS]).toEqual([0, 1, 2]);
  expect([...log.channels.altitudeM!]).toEqual([5, 6, 7]);
  expect(log.speedSource).toBe('recorded');
};

describeCheckValues('GPX points with every child in the order of the schema', {
  'gpx11.order': readsInOrder('1.1'),
  'gpx10.order-head': entry => {
    readsInOrder('1.0')(entry);
    const log = readLog('order.gpx', trackInOrder('1.0', checkValue('gpx10.order-head').expected));
    expect([...log.channels.headingDeg!]).toEqual([5, 6, 7]);
  },
});

// tkrajina/gpxpy test_files, at 017d9961, Apache 2.0.
describeWithSharedData('GPX files of a general library', folder => {
  const read = (name: string) => readLog(name, readFileSync(join(folder, 'gpx', name)));
  const refusal = (name: string) => {
    try {
      read(name);
    } catch (error) {
      if (error instanceof ProblemError) return error.problems.map(problem => problem.id);
      throw error;
    }
    return [];
  };

  it('reads a recorded speed', () => {
    const log = read('track_with_speed.gpx');
    expect([...log.speedMps]).toEqual([1.2, 2.2, 3.2]);
    expect([...log.timeS]).toEqual([0, 6, 13]);
    expect(log.speedSource).toBe('recorded');
  });

  it('derives the speed of a car’s track from its position, and says so', () => {
    const log = read('around-visnjan-with-car.gpx');
    expect(log.timeS).toHaveLength(104);
    expect(log.speedSource).toBe('derived-from-position');
    expect(log.warnings.map(warning => warning.code)).toContain('derived-from-position');
    // A road of the country: the car moved, and no step between points makes it fly.
    expect(Math.max(...log.speedMps)).toBeGreaterThan(20);
    expect(Math.max(...log.speedMps)).toBeLessThan(30);
  });

  it('reads a track with an empty segment', () => {
    expect(read('track-with-empty-segment.gpx').timeS.length).toBeGreaterThanOrEqual(2);
  });

  it.each([
    ['cerknicko-without-times.gpx', 'gpx-no-times'],
    ['gpx1.0_with_all_fields.gpx', 'log-too-few-samples'],
    ['gpx1.1_with_extensions.gpx', 'gpx-no-points'],
    ['unicode_with_bom.gpx', 'gpx-no-points'],
  ])('refuses %s with one problem, %s', (name, id) => {
    expect(refusal(name)).toEqual([id]);
  });
});
