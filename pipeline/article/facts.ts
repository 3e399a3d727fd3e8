/** Cars, roads and tests as pairs of a word and what is to be said, ready to print. */

import { catalogue, tagOf } from '../language.ts';
import { languageOfPart } from '../result/in-language.ts';
import { measureLabel } from '../result/measures.ts';
import type { Car, House, Road, TestResult } from '../result/result.ts';
import { printQuantity } from '../result/words.ts';
import type { ForReaders } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import { conditionSpan } from './condition-span.ts';
import { type KeyFigure, leadFigure } from './key-figures.ts';
import { driveInWords, wheelsInWords } from './page-words.ts';

export interface Fact {
  readonly label: string;
  readonly text: string;
  /** Where the text is in another language than the page. */
  readonly lang?: string;
}

const fact = (label: string, text: string | undefined, lang?: string): Fact[] =>
  text === undefined || text === '' ? [] : [{ label, text, ...(lang === undefined ? {} : { lang }) }];

const WORDS = catalogue({
  en: {
    kind: 'Kind',
    drive: 'Drive',
    gearbox: 'Gearbox',
    power: 'Power',
    torque: 'Torque',
    kerbMass: 'Kerb mass',
    dragArea: 'Drag area',
    price: 'Price',
    claimTime: (of: string) => `Maker’s claim, ${of}`,
    claimSpeed: 'Maker’s claim, top speed',
    surface: 'Surface',
    length: 'Length',
    width: 'Width',
    altitude: 'Height above the sea',
    directions: 'Directions',
    slope: 'Slope',
    meanSlope: (falls: boolean, slope: string, direction: string) =>
      `mean ${falls ? 'fall' : 'rise'} of ${slope} ${direction}`,
    slopeFromLogs: 'not levelled; each test takes it from the altitude that its logs hold',
    permission: 'Permission',
  },
  de: {
    kind: 'Art',
    drive: 'Antrieb',
    gearbox: 'Getriebe',
    power: 'Leistung',
    torque: 'Drehmoment',
    kerbMass: 'Leergewicht',
    dragArea: 'Luftwiderstandsfläche',
    price: 'Preis',
    claimTime: of => `Herstellerangabe, ${of}`,
    claimSpeed: 'Herstellerangabe, Höchstgeschwindigkeit',
    surface: 'Fahrbahn',
    length: 'Länge',
    width: 'Breite',
    altitude: 'Höhe über dem Meer',
    directions: 'Richtungen',
    slope: 'Neigung',
    meanSlope: (falls, slope, direction) =>
      `im Mittel ${slope} ${falls ? 'Gefälle' : 'Steigung'} ${direction}`,
    slopeFromLogs: 'nicht vermessen; jeder Test nimmt sie aus der Höhe in seinen Protokollen',
    permission: 'Erlaubnis',
  },
});

/** The car as its maker describes it; claims are named as claims. */
export function carFacts(car: Car, readers: ForReaders): readonly Fact[] {
  const language = tagOf(readers);
  const words = WORDS(language);
  const claims = car.maker_claims;
  const optional = (value: number | undefined, print: (value: number) => string): string | undefined =>
    value === undefined ? undefined : print(value);
  return [
    ...fact(words.kind, car.kind, languageOfPart(car, 'kind')),
    ...fact(
      words.drive,
      `${driveInWords(car.drive, language)}, ${wheelsInWords(car.driven_wheels, language)}`,
    ),
    ...fact(words.gearbox, car.gearbox, languageOfPart(car, 'gearbox')),
    ...fact(words.power, printQuantity(car.power_kw * 1000, 'power', undefined, language)),
    ...fact(
      words.torque,
      optional(car.torque_nm, nm => printQuantity(nm, 'torque', undefined, language)),
    ),
    ...fact(words.kerbMass, printQuantity(car.kerb_mass_kg, 'mass', undefined, language)),
    ...fact(
      words.dragArea,
      optional(car.drag_area_m2, area => printQuantity(area, 'area', undefined, language)),
    ),
    ...fact(words.price, car.price),
    ...fact(
      words.claimTime(measureLabel('0-100-kmh', readers)),
      optional(claims?.zero_to_100_kmh_s, s => printQuantity(s, 'time', 1, language)),
    ),
    ...fact(
      words.claimTime(measureLabel('0-60-mph', readers)),
      optional(claims?.zero_to_60_mph_s, s => printQuantity(s, 'time', 1, language)),
    ),
    ...fact(
      words.claimSpeed,
      optional(claims?.top_speed_kmh, kmh => printQuantity(kmhToMps(kmh), 'speed', 0, readers)),
    ),
  ];
}

export function roadFacts(road: Road, language: string): readonly Fact[] {
  const words = WORDS(language);
  const metres = (value: number): string => printQuantity(value, 'altitude', undefined, language);
  const slope = road.slope_pct;
  return [
    ...fact(words.surface, road.surface, languageOfPart(road, 'surface')),
    ...fact(words.length, metres(road.length_m)),
    ...fact(words.width, road.width_m === undefined ? undefined : metres(road.width_m)),
    ...fact(words.altitude, road.altitude_m === undefined ? undefined : metres(road.altitude_m)),
    ...fact(
      words.directions,
      road.directions
        .map(({ name, heading_deg }) => `${name} (${printQuantity(heading_deg, 'angle', 0, language)})`)
        .join(', '),
    ),
    ...fact(
      words.slope,
      slope === undefined
        ? road.slope_from_logs && words.slopeFromLogs
        : words.meanSlope(
            slope < 0,
            printQuantity(Math.abs(slope), 'slope', 2, language),
            road.directions[0]?.name ?? '',
          ),
    ),
    ...fact(words.permission, road.permission, languageOfPart(road, 'permission')),
  ];
}

/** What must be alike before two tests are compared, in the order in which pages show it. */
export interface TestSummary {
  readonly id: string;
  readonly title: string;
  readonly standfirst: string;
  /** Where they are in another language than the page. */
  readonly titleLang?: string;
  readonly standfirstLang?: string;
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
const notRead = catalogue({ en: NOT_READ as string, de: 'nicht abgelesen' });

export function testSummary(test: TestResult, house: House): TestSummary {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const span = (of: 'surface' | 'temperature' | 'headwind'): string =>
    conditionSpan(kept, of, house.language) ?? notRead(house);
  const lead = leadFigure(test, house);
  const titleLang = languageOfPart(test, 'title');
  const standfirstLang = languageOfPart(test, 'standfirst');
  return {
    id: test.id,
    title: test.content.title,
    standfirst: test.content.standfirst,
    ...(titleLang === undefined ? {} : { titleLang }),
    ...(standfirstLang === undefined ? {} : { standfirstLang }),
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
