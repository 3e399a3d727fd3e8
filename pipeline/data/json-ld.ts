/** A test as linked data for search engines and programs: article, car with its measured figures, data set (schema.org). */

import type { Article, Car, Dataset, QuantitativeValue } from 'schema-dts';
import { START_RULES } from '../content/schema.ts';
import { displayUnit, measureLabel, measuresOf } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Publication, TestResult } from '../result/result.ts';
import { printResult } from '../result/words.ts';
import { shownCorrections } from '../sign-off/shown.ts';
import { testAddress, wholeAddress, wholeFileAddress } from './page-address.ts';
import { TABLES_OF_A_TEST } from './tables.ts';
import { DATA_WORDS } from './words.ts';

/** Times that schema.org has a property for: between two speeds, from rest. Speeds in the unit of the code. */
const ACCELERATIONS: readonly (readonly [MeasureId, number, 'KMH' | 'HM'])[] = [
  ['0-50-kmh', 50, 'KMH'],
  ['0-100-kmh', 100, 'KMH'],
  ['0-160-kmh', 160, 'KMH'],
  ['0-30-mph', 30, 'HM'],
  ['0-60-mph', 60, 'HM'],
  ['0-100-mph', 100, 'HM'],
];

/** Finished for a `<script type="application/ld+json">`: nothing in it can end the element. */
export function testJsonLd(test: TestResult, publication: Publication, imagePath?: string): string {
  return forScript(testGraph(test, publication, imagePath));
}

/** JSON in which no sign means anything to HTML; the same value to whoever reads it. */
export function forScript(value: object): string {
  return JSON.stringify(value).replace(
    /[<>&\u2028\u2029]/g,
    sign => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** `Graph` of schema-dts with the kinds that a test has: against all of schema.org a check of types takes seconds. */
interface TestGraph {
  readonly '@context': 'https://schema.org';
  readonly '@graph': readonly [Article, Car, Dataset];
}

/** The same as an object. */
export function testGraph(test: TestResult, publication: Publication, imagePath?: string): TestGraph {
  const page = testAddress(publication.house, test.id);
  return {
    '@context': 'https://schema.org',
    '@graph': [
      article(test, publication, page, imagePath),
      car(test, publication.house, page),
      dataset(test, publication.house, page),
    ],
  };
}

function article(test: TestResult, publication: Publication, page: string, imagePath?: string): Article {
  const { house } = publication;
  const { content } = test;
  const { published, byline } = content;
  const corrected = shownCorrections(test, publication).map(({ date }) => date);
  return {
    '@type': 'Article',
    '@id': `${page}#article`,
    headline: content.title,
    description: content.standfirst,
    url: page,
    mainEntityOfPage: page,
    inLanguage: house.language,
    ...(published === undefined
      ? {}
      : { datePublished: published, dateModified: [published, ...corrected].sort().at(-1)! }),
    author:
      byline === undefined
        ? { '@type': 'Organization', name: house.name, url: wholeAddress(house, '/') }
        : { '@type': 'Person', name: byline },
    publisher: { '@type': 'Organization', name: house.name, url: wholeAddress(house, '/') },
    license: house.licence.url,
    ...(imagePath === undefined ? {} : { image: wholeFileAddress(house, imagePath) }),
    about: { '@id': `${page}#car` },
    isBasedOn: { '@id': `${page}#data` },
  };
}

function car({ id, car: tested, content, ...rest }: TestResult, house: House, page: string): Car {
  const test = { id, car: tested, content, ...rest };
  const shown = new Set(measuresOf(house));
  const times = ACCELERATIONS.filter(([measure]) => shown.has(measure)).flatMap(
    ([measure, toSpeed, speedUnit]) =>
      START_RULES.flatMap((startRule): QuantitativeValue[] => {
        const result = pickResult(test, house, { measure, startRule });
        if (result === undefined) return [];
        const { full } = printResult(result, house);
        // The number as printed, in the digits every program reads.
        const { value } = printResult(result, { ...house, language: 'en-GB' });
        return [
          {
            '@type': 'QuantitativeValue',
            name: measureLabel(measure, house),
            description: full,
            value: Number(value),
            unitCode: 'SEC',
            unitText: displayUnit(measure, house),
            valueReference: {
              '@type': 'QuantitativeValue',
              minValue: 0,
              maxValue: toSpeed,
              unitCode: speedUnit,
            },
          },
        ];
      }),
  );
  return {
    '@type': 'Car',
    '@id': `${page}#car`,
    name: tested.name,
    url: wholeAddress(house, `/cars/${tested.id}/`),
    bodyType: tested.kind,
    vehicleTransmission: tested.gearbox,
    weight: { '@type': 'QuantitativeValue', value: tested.kerb_mass_kg, unitCode: 'KGM' },
    vehicleEngine: {
      '@type': 'EngineSpecification',
      enginePower: { '@type': 'QuantitativeValue', value: tested.power_kw, unitCode: 'KWT' },
      ...(tested.torque_nm === undefined
        ? {}
        : { torque: { '@type': 'QuantitativeValue', value: tested.torque_nm, unitCode: 'NU' } }),
    },
    ...(times.length === 0 ? {} : { accelerationTime: times }),
  };
}

function dataset(test: TestResult, house: House, page: string): Dataset {
  const words = DATA_WORDS(house);
  return {
    '@type': 'Dataset',
    '@id': `${page}#data`,
    name: test.content.title,
    description: `${test.content.standfirst} ${TABLES_OF_A_TEST.map(table => `${words.tables[table]}.`).join(' ')}`,
    url: wholeAddress(house, `/data/#${test.id}`),
    license: house.licence.url,
    isAccessibleForFree: true,
    creator: { '@type': 'Organization', name: house.name, url: wholeAddress(house, '/') },
    temporalCoverage: test.content.date,
    variableMeasured: ['speed', 'distance', 'time'],
    distribution: TABLES_OF_A_TEST.map(table => ({
      '@type': 'DataDownload' as const,
      name: words.tables[table],
      encodingFormat: 'text/csv',
      contentUrl: wholeFileAddress(house, `data/${test.id}/${table}.csv`),
    })),
  };
}
