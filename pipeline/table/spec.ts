/** The car as tested: what it is, what it weighed, what it stood on. */

import { measureLabel } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, statedSpeed, withUnit } from '../result/words.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import type { Table, TableCell } from './table.ts';
import { specWords } from './words/spec.ts';

/** Label and value a row; what is not known has no row. */
export function specTable({ car, content }: TestResult, house: House): Table {
  const { language } = house;
  const words = specWords(house);
  const tested = content.as_tested;
  const rows: (readonly [string, string])[] = [];
  const add = (label: string, text: string | undefined) => {
    if (text !== undefined) rows.push([label, text]);
  };
  const written = (value: number | undefined, unit: string): string | undefined =>
    value === undefined ? undefined : withUnit(localiseDigits(String(value), language), unit);

  add(words.car, `${car.name}, ${car.kind}`);
  add(words.drive, `${words.drives[car.drive]}, ${words.wheels[car.driven_wheels]}`);
  add(words.gearbox, car.gearbox);
  add(words.power, written(car.power_kw, 'kW'));
  add(words.torque, written(car.torque_nm, 'N·m'));
  add(words.kerbMass, printQuantity(car.kerb_mass_kg, 'mass', undefined, language));
  const from = tested.mass_from === undefined ? '' : `, ${words.massFrom[tested.mass_from]}`;
  add(words.testMass, printQuantity(tested.mass_kg, 'mass', undefined, language) + from);
  add(words.aboard, tested.aboard);
  add(words.fuel, tested.fuel);
  add(words.tyres, tested.tyres);
  const pressures = (
    [
      [words.front, written(tested.tyre_pressure_front_kpa, 'kPa')],
      [words.rear, written(tested.tyre_pressure_rear_kpa, 'kPa')],
    ] as const
  ).flatMap(([say, text]) => (text === undefined ? [] : say(text)));
  add(words.tyrePressure, pressures.length === 0 ? undefined : pressures.join(', '));
  add(words.odometer, written(tested.odometer_km, 'km'));
  add(words.notes, tested.notes);
  add(words.price, car.price);
  const zeroTo100 = written(car.maker_claims?.zero_to_100_kmh_s, 's');
  const zeroTo60 = written(car.maker_claims?.zero_to_60_mph_s, 's');
  const topKmh = car.maker_claims?.top_speed_kmh;
  const topSpeed =
    topKmh === undefined
      ? undefined
      : speedUnitOf(house) === 'mph'
        ? printQuantity(kmhToMps(topKmh), 'speed', 0, house)
        : written(topKmh, 'km/h');
  const claims = [
    ...(zeroTo100 === undefined ? [] : [`${measureLabel('0-100-kmh', house)} ${zeroTo100}`]),
    ...(zeroTo60 === undefined ? [] : [`${measureLabel('0-60-mph', house)} ${zeroTo60}`]),
    ...(topSpeed === undefined ? [] : [words.topSpeed(topSpeed)]),
  ];
  add(words.claims, claims.length === 0 ? undefined : claims.join(', '));
  add(words.receiver, content.receiver.what);
  const accuracy = content.receiver.speed_accuracy_kmh;
  add(words.accuracy, accuracy === undefined ? undefined : statedSpeed(accuracy, house));

  return {
    id: 'spec',
    caption: words.caption(car.name),
    columns: [
      { label: words.what, align: 'start' },
      { label: words.asTested, align: 'start' },
    ],
    rows: rows.map(([label, text]): readonly TableCell[] => [{ text: label, header: true }, { text }]),
    notes: [words.source],
  };
}
