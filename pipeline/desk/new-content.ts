/** New tests, cars and roads as files: what was told stands in them, the rest as lines to fill in. */
import { fieldsText } from './yaml-text.ts';

export type NewKind = 'test' | 'car' | 'road';

/** Folder of a kind, and the file in it. */
export const pathOfNew = (kind: NewKind, id: string): string =>
  kind === 'test' ? `content/tests/${id}/test.yaml` : `content/${kind}s/${id}.yaml`;

const SCHEMA = {
  test: '# yaml-language-server: $schema=../../schema/test.json',
  car: '# yaml-language-server: $schema=../schema/car.json',
  road: '# yaml-language-server: $schema=../schema/road.json',
} as const;

/** What every kind needs, in the order it is written, with what to write where nothing was told. */
const HINTS: Readonly<Record<NewKind, Readonly<Record<string, string>>>> = {
  test: {
    title: 'title of the article',
    standfirst: 'one or two sentences under the title',
    car: 'name of a file in cars/, without .yaml',
    road: 'name of a file in roads/, without .yaml',
    date: '"2026-05-12", the day at the road',
    time_zone: '"+01:00", how far the clock at the road is ahead of UTC',
    as_tested: 'mass_kg, aboard, fuel and tyres on the day',
    receiver: 'what it was and where it sat',
    conditions:
      '- { at: "09:30", temperature_c: 12.5, pressure_hpa: 1015, wind_mps: 2, wind_from_deg: 240, surface: dry }',
    logs: '- file: logs/morning.csv',
    attempts: '- { at: "10:22:40", launch: …, direction: … }',
  },
  car: {
    name: 'make and model in full',
    short_name: 'for labels, at most about 14 characters',
    kind: 'such as five-door hatchback',
    drive: 'electric, petrol, petrol-boosted, diesel or diesel-boosted',
    driven_wheels: 'front, rear or all',
    gearbox: 'such as six-speed manual',
    power_kw: 'rated power',
    kerb_mass_kg: 'as the maker states it',
    drag_area_m2: 'drag coefficient times frontal area; needed to restate',
    rolling_resistance: 'such as 0.010; needed to restate',
  },
  road: {
    name: 'name of the road or airfield',
    about: 'what it is and how it is closed to others',
    permission: 'who allowed the tests',
    surface: 'such as grooved concrete',
    length_m: 'length that can be driven',
    directions: '- { id: north, name: Northbound, heading_deg: 10 }',
    slope_pct: 'mean rise in the first direction',
  },
};

/** The file: fields that were told, and a commented line for each that was not. */
export function newContentText(kind: NewKind, told: Readonly<Record<string, unknown>>): string {
  const lines: string[] = [SCHEMA[kind]];
  for (const [field, hint] of Object.entries(HINTS[kind])) {
    const value = told[field];
    lines.push(value === undefined ? `# ${field}: ${hint}` : fieldsText({ [field]: value }).trimEnd());
  }
  return `${lines.join('\n')}\n`;
}
