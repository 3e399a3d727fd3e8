import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { EncodedText } from '../../pipeline/log/bytes.ts';
import { checksumOf, readFields, Sentence } from '../../pipeline/log/sentence.ts';
import { KNOT_MPS, knotsToMps, mpsToKmh } from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';
import { describeWithSharedData } from './shared-data.ts';

/** A sentence as the log reader takes it: its values, or the reason why it is not used. */
function parse(text: string) {
  const sentence = new Sentence();
  const state = sentence.read(new EncodedText(new TextEncoder().encode(text), 'utf-8'), 0);
  return state === 'good' ? { state, values: readFields(sentence) } : { state };
}
const withChecksum = (body: string) => `$${body}*${checksumOf(body)}`;

const checksum = (entry: CheckValue) => expectWithin(checksumOf(entry.inputs.body), entry);

describeCheckValues('NMEA 0183 values', {
  'nmea.cs.1': checksum,
  'nmea.cs.2': checksum,
  'nmea.cs.3': checksum,
  'nmea.cs.4': checksum,
  'nmea.cs.5': checksum,
  'nmea.cs.6': checksum,
  'nmea.cs.7': checksum,
  'nmea.latlon': entry => {
    const { values } = parse(
      withChecksum('GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W'),
    );
    if (values?.type !== 'RMC') throw new Error('RMC expected');
    expectWithin({ lat: values.latitudeDeg, lon: values.longitudeDeg, speed_ms: values.speed?.mps }, entry);
  },
  'nmea.gps-npm': entry => {
    const { values } = parse(
      withChecksum('GPRMC,234919.000,A,4832.3914,N,00903.5500,E,2.28,2.93,260511,,,A'),
    );
    if (values?.type !== 'RMC') throw new Error('RMC expected');
    expectWithin({ kmh: mpsToKmh(values.speed!.mps), lat: values.latitudeDeg }, entry);
  },
  'speed.1kn-ms': entry => expectWithin(knotsToMps(entry.inputs.kn), entry),
});

describeWithSharedData('sentences with the values that two general parsers expect', folder => {
  const vectors = (name: string) =>
    JSON.parse(readFileSync(join(folder, 'nmea-vectors', name), 'utf8')) as readonly {
      readonly sentence: string;
      // biome-ignore lint/suspicious/noExplicitAny: the fields differ with the type of the sentence
      readonly expected: any;
    }[];
  const isRead = /^\$..(RMC|VTG|GGA),/;
  const number = (value: number) => (Number.isNaN(value) ? null : value);

  // infusion/GPS.js tests at 48182bb6, MIT; its speeds are km/h.
  const first = vectors('gpsjs-parser-vectors.json');

  // Said to be no sentence at all, or one whose checksum is wrong.
  const isInvalid = ({ expected }: { readonly expected: { valid?: boolean } | 'invalid' }) =>
    expected === 'invalid' || expected.valid === false;

  it.each(first.filter(isInvalid))('refuses $sentence', ({ sentence }) => {
    expect(parse(sentence).state).not.toBe('good');
  });

  const valid = first.filter(vector => isRead.test(vector.sentence) && !isInvalid(vector));
  it.each(valid)('agrees with the first parser on $sentence', ({ sentence, expected }) => {
    const { values } = parse(sentence);
    if (!values) throw new Error('a sentence that is read');
    if (values.type !== 'VTG' && expected.lat !== null) {
      expect(values.latitudeDeg).toBeCloseTo(expected.lat, 9);
      expect(values.longitudeDeg).toBeCloseTo(expected.lon, 9);
    }
    if (values.type === 'GGA') {
      expect(number(values.altitudeM)).toBe(expected.alt);
      expect(values.satellites).toBe(expected.satellites);
      expect(values.valid).toBe(expected.quality !== null);
      expect(values.hdop).toBe(expected.hdop);
    } else if (values.type === 'RMC') {
      expect(values.valid).toBe(expected.status === 'active');
      expect(number(values.courseDeg)).toBe(expected.track);
      if (expected.speed === null) expect(values.speed).toBeUndefined();
      else expect(mpsToKmh(values.speed!.mps)).toBeCloseTo(expected.speed, 9);
      const at = new Date((values.dayS! + values.timeOfDayS!) * 1000).toISOString();
      // It reads the years 94 and 98 as of this century; satellite time began in 1980.
      expect(at).toBe(expected.time.replace(/^209/, '199'));
    } else {
      expect(mpsToKmh(values.knots!.mps)).toBeCloseTo(expected.speed, 9);
      expect(values.courseDeg).toBe(expected.track);
    }
  });

  // 101100/nmea-simple tests at bfc6ba24, MIT; speeds in knots.
  const second = vectors('nmea-simple-vectors.json');

  it.each(second.filter(({ sentence }) => isRead.test(sentence)))(
    'agrees with the second parser on $sentence',
    ({ sentence, expected }) => {
      const { values } = parse(sentence);
      if (!values) throw new Error('a sentence that is read');
      if (values.type === 'VTG') {
        expect(values.knots!.mps / KNOT_MPS).toBeCloseTo(expected.speedKnots, 9);
        expect(values.courseDeg).toBe(expected.trackTrue);
        // The empty km/h field, which that parser reports as 0, is no speed.
        expect(values.kmh).toBeUndefined();
        return;
      }
      const milliseconds = expected.milliseconds;
      if (milliseconds !== undefined) expect((values.timeOfDayS! % 1) * 1000).toBeCloseTo(milliseconds, 6);
      if (expected.latitude !== undefined) {
        expect(values.latitudeDeg).toBeCloseTo(expected.latitude, 9);
        expect(values.longitudeDeg).toBeCloseTo(expected.longitude, 9);
      }
      if (values.type === 'RMC' && expected.datetime !== undefined) {
        expect(new Date((values.dayS! + values.timeOfDayS!) * 1000)).toEqual(new Date(expected.datetime));
        expect(values.speed!.mps / KNOT_MPS).toBeCloseTo(expected.speedKnots, 9);
      }
      if (values.type === 'GGA') {
        const { altitudeM, satellites, hdop } = values;
        expect([altitudeM, satellites, hdop]).toEqual([
          expected.altitudeMeters,
          expected.satellites,
          expected.hdop,
        ]);
      }
    },
  );

  it('refuses the wrong checksum and passes over a sentence of another type', () => {
    const [wrong, other] = second.filter(({ expected }) => expected.error);
    expect(parse(wrong!.sentence)).toEqual({ state: 'bad-checksum' });
    expect(parse(other!.sentence).values).toBeUndefined();
  });
});
