/** The car as tested: what it is, what it weighed, what it stood on. */
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, withUnit } from '../result/words.ts';
import type { Table, TableCell } from './table.ts';

const DRIVE = {
  electric: 'electric',
  petrol: 'petrol, naturally aspirated',
  'petrol-boosted': 'petrol, boosted',
  diesel: 'diesel, naturally aspirated',
  'diesel-boosted': 'diesel, boosted',
} as const;
const WHEELS = { front: 'front wheels', rear: 'rear wheels', all: 'all wheels' } as const;
const MASS_FROM = { weighed: 'weighed', 'worked-out': 'worked out' } as const;

/** Label and value a row; what is not known has no row. */
export function specTable({ car, content }: TestResult, { language }: House): Table {
  const tested = content.as_tested;
  const rows: (readonly [string, string])[] = [];
  const add = (label: string, text: string | undefined) => {
    if (text !== undefined) rows.push([label, text]);
  };
  const written = (value: number | undefined, unit: string): string | undefined =>
    value === undefined ? undefined : withUnit(localiseDigits(String(value), language), unit);

  add('Car', `${car.name}, ${car.kind}`);
  add('Drive', `${DRIVE[car.drive]}, ${WHEELS[car.driven_wheels]}`);
  add('Gearbox', car.gearbox);
  add('Power', written(car.power_kw, 'kW'));
  add('Torque', written(car.torque_nm, 'N·m'));
  add('Kerb mass', printQuantity(car.kerb_mass_kg, 'mass', undefined, language));
  const from = tested.mass_from === undefined ? '' : `, ${MASS_FROM[tested.mass_from]}`;
  add('Mass as tested', printQuantity(tested.mass_kg, 'mass', undefined, language) + from);
  add('Aboard', tested.aboard);
  add('Fuel', tested.fuel);
  add('Tyres', tested.tyres);
  const pressures = [
    ['front', written(tested.tyre_pressure_front_kpa, 'kPa')],
    ['rear', written(tested.tyre_pressure_rear_kpa, 'kPa')],
  ].flatMap(([end, text]) => (text === undefined ? [] : `${end} ${text}`));
  add('Tyre pressure', pressures.length === 0 ? undefined : pressures.join(', '));
  add('Odometer', written(tested.odometer_km, 'km'));
  add('Notes', tested.notes);
  add('Price', car.price);
  const claims = [
    ['0–100 km/h', written(car.maker_claims?.zero_to_100_kmh_s, 's')],
    ['top speed', written(car.maker_claims?.top_speed_kmh, 'km/h')],
  ].flatMap(([what, text]) => (text === undefined ? [] : `${what} ${text}`));
  add('Maker’s claims, not measured', claims.length === 0 ? undefined : claims.join(', '));
  add('Receiver', content.receiver.what);
  add('Speed accuracy, as its maker states', written(content.receiver.speed_accuracy_kmh, 'km/h'));

  return {
    id: 'spec',
    caption: `${car.name} as tested`,
    columns: [
      { label: 'What', align: 'start' },
      { label: 'As tested', align: 'start' },
    ],
    rows: rows.map(([label, text]): readonly TableCell[] => [{ text: label, header: true }, { text }]),
    notes: ['Power, torque and kerb mass as the maker states them.'],
  };
}
