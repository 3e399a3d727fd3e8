/** A decimated trace as bytes, for the way from the desk's server to its page: no text to write or to read. */
import type { Strip } from './strip.ts';

/**
 * Three rows of as many 64-bit floats, lowest byte first: times in s, least and greatest speeds in km/h. A place
 * where nothing was recorded has no number for its speeds.
 */
export function stripToBytes({ timeS, minKmh, maxKmh }: Strip): Uint8Array {
  const view = new DataView(new ArrayBuffer(3 * timeS.length * 8));
  let at = 0;
  for (const row of [timeS, minKmh, maxKmh]) {
    for (const value of row) {
      view.setFloat64(at, value ?? Number.NaN, true);
      at += 8;
    }
  }
  return new Uint8Array(view.buffer);
}

/** @throws RangeError where the bytes are not three rows */
export function bytesToStrip(bytes: ArrayBuffer): Strip {
  if (bytes.byteLength % 24 !== 0) throw new RangeError('three rows of 64-bit floats are expected');
  const view = new DataView(bytes);
  const count = bytes.byteLength / 24;
  const row = (which: number): number[] =>
    Array.from({ length: count }, (_, i) => view.getFloat64((which * count + i) * 8, true));
  const known = (value: number): number | null => (Number.isNaN(value) ? null : value);
  return { timeS: row(0), minKmh: row(1).map(known), maxKmh: row(2).map(known) };
}
