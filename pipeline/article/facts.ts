/** Cars, roads and tests as pairs of a word and what is to be said, ready to print. */
import type { Car, House, Road, TestResult } from '../result/result.ts';
import { printQuantity } from '../result/words.ts';
import { kmhToMps } from '../units.ts';
import { conditionSpan } from './condition-span.ts';
import { type KeyFigure, leadFigure } from './key-figures.ts';
import { driveInWords } from './page-words.ts';

export interface Fact {
  readonly label: string;
  readonly text: string;
}

const fact = (label: string, text: string | undefined): Fact[] =>
  text === undefined || text === '' ? [] : [{ label, text }];

/** The car as its maker describes it; claims are named as claims. */
export function carFacts(car: Car, language: string): readonly Fact[] {
  const claims = car.maker_claims;
  const optional = (value: number | undefined, print: (value: number) => string): string | undefined =>
    value === undefined ? undefined : print(value);
  return [
    ...fact('Kind', car.kind),
    ...fact('Drive', `${driveInWords(car.drive)}, ${car.driven_wheels} wheels`),
    ...fact('Gearbox', car.gearbox),
    ...fact('Power', printQuantity(car.power_kw * 1000, 'power', undefined, language)),
    ...fact(
      'Torque',
      optional(car.torque_nm, nm => printQuantity(nm, 'torque', undefined, language)),
    ),
    ...fact('Kerb mass', printQuantity(car.kerb_mass_kg, 'mass', undefined, language)),
    ...fact(
      'Drag area',
      optional(car.drag_area_m2, area => printQuantity(area, 'area', undefined, language)),
    ),
    ...fact('Price', car.price),
    ...fact(
      'Maker’s claim, 0–100 km/h',
      optional(claims?.zero_to_100_kmh_s, s => printQuantity(s, 'time', 1, language)),
    ),
    ...fact(
      'Maker’s claim, top speed',
      optional(claims?.top_speed_kmh, kmh => printQuantity(kmhToMps(kmh), 'speed', 0, language)),
    ),
  ];
}

export function roadFacts(road: Road, language: string): readonly Fact[] {
  const metres = (value: number): string => printQuantity(value, 'altitude', undefined, language);
  const slope = road.slope_pct;
  return [
    ...fact('Surface', road.surface),
    ...fact('Length', metres(road.length_m)),
    ...fact('Width', road.width_m === undefined ? undefined : metres(road.width_m)),
    ...fact('Height above the sea', road.altitude_m === undefined ? undefined : metres(road.altitude_m)),
    ...fact(
      'Directions',
      road.directions
        .map(({ name, heading_deg }) => `${name} (${printQuantity(heading_deg, 'angle', 0, language)})`)
        .join(', '),
    ),
    ...fact(
      'Slope',
      slope === undefined
        ? undefined
        : `mean ${slope < 0 ? 'fall' : 'rise'} of ${printQuantity(Math.abs(slope), 'slope', 2, language)} ${road.directions[0]?.name ?? ''}`,
    ),
    ...fact('Permission', road.permission),
  ];
}

/** What must be alike before two tests are compared, in the order in which pages show it. */
export interface TestSummary {
  readonly id: string;
  readonly title: string;
  readonly standfirst: string;
  readonly date: string;
  readonly car: Pick<Car, 'id' | 'name' | 'short_name'>;
  readonly road: Pick<Road, 'id' | 'name'>;
  readonly lead?: KeyFigure;
  readonly surface: string;
  readonly temperature: string;
  readonly headwind: string;
  readonly mass: string;
}

/** A missing reading is said as such and never left to be taken for nothing. */
export const NOT_READ = 'not read';

export function testSummary(test: TestResult, house: House): TestSummary {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const span = (of: 'surface' | 'temperature' | 'headwind'): string =>
    conditionSpan(kept, of, house.language) ?? NOT_READ;
  const lead = leadFigure(test, house);
  return {
    id: test.id,
    title: test.content.title,
    standfirst: test.content.standfirst,
    date: test.content.date,
    car: test.car,
    road: test.road,
    ...(lead === undefined ? {} : { lead }),
    surface: span('surface'),
    temperature: span('temperature'),
    headwind: span('headwind'),
    mass: printQuantity(test.content.as_tested.mass_kg, 'mass', undefined, house.language),
  };
}
