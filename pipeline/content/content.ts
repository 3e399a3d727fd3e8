/** The content folder as a whole: every file held to its schema, then to the others. */
import type { z } from 'zod';
import type { Place, Problem } from '../problem.ts';
import { misnamedFile, missingFile } from '../problems/content.ts';
import { type ContentFiles, fileName, HOUSE_FILE, METHODOLOGY_FILE, pathsByTest } from './files.ts';
import { checkLook } from './look-checks.ts';
import { type Parsed, type ParseFile, parseAs } from './parse.ts';
import { checkHouse, checkRoad } from './place-checks.ts';
import {
  type CarContent,
  carSchema,
  type HouseContent,
  houseSchema,
  type RoadContent,
  roadSchema,
  type TestContent,
  testSchema,
} from './schema.ts';
import { sortProblems, withoutEchoes } from './sort-problems.ts';
import { checkTest } from './test-checks.ts';
import { bytesToText } from './text.ts';
import { isTranslation, readTranslations, type Translation } from './translations.ts';
import type { Path } from './yaml.ts';

/** A folder of tests/ whose test.yaml fits its schema. */
export interface TestFolder {
  readonly id: string;
  /** Such as `content/tests/x`. */
  readonly folder: string;
  readonly content: TestContent;
  readonly articleMarkdown: string;
  readonly articleFile: string;
  /** Place of a field of test.yaml. */
  place(path: Path): Place;
}

export interface Content {
  /** Absent where house.yaml is missing or has faults. */
  readonly house?: HouseContent;
  /** By their file names; those with faults are left out, their problems are not. */
  readonly cars: readonly (CarContent & { readonly id: string })[];
  readonly roads: readonly (RoadContent & { readonly id: string })[];
  readonly tests: readonly TestFolder[];
  readonly methodology: string;
  /** What is written in further languages, in the order of house.yaml. */
  readonly translations: readonly Translation[];
  /** All faults of all files, by file and line. */
  readonly problems: readonly Problem[];
}

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Checks everything people wrote; never throws on what a file holds. */
export function contentFilesToContent(files: ContentFiles, parse: ParseFile = parseAs): Content {
  const problems: Problem[] = [];
  const paths = new Set(files.keys());

  const houseBytes = files.get(HOUSE_FILE);
  const house = houseBytes && parse(HOUSE_FILE, houseBytes, houseSchema);
  if (house) problems.push(...house.problems, ...checkHouse(house), ...checkLook(house, paths));
  else problems.push(missingFile(HOUSE_FILE, 'The description of the publication'));

  const cars = entries(files, 'cars', carSchema, problems, parse);
  const roads = entries(files, 'roads', roadSchema, problems, parse);
  for (const road of roads.values()) problems.push(...checkRoad(road));

  // Once for all tests: an archive has as many cars as a third of its tests.
  const around = {
    cars: new Map([...cars].map(([key, car]) => [key, car.partly])),
    roads: new Map([...roads].map(([key, road]) => [key, road.partly])),
    paths,
  };
  const methods = house?.partly.launch_methods?.map(method => method?.id).filter(id => id !== undefined);
  const tests: TestFolder[] = [];
  for (const folder of [...pathsByTest(paths).keys()].sort()) {
    const id = fileName(folder);
    if (!SLUG.test(id)) problems.push(misnamed(folder, 'folder'));
    const file = `${folder}/test.yaml`;
    const bytes = files.get(file);
    if (!bytes) {
      const yml = paths.has(`${folder}/test.yml`) ? `${folder}/test.yml` : undefined;
      problems.push(
        yml === undefined
          ? missingFile(file, 'The description of this test')
          : misnamedFile(yml, 'test.yaml', 'Rename it to test.yaml.'),
      );
      continue;
    }
    const test = parse(file, bytes, testSchema);
    problems.push(...test.problems);
    problems.push(
      ...checkTest(test, {
        folder,
        ...around,
        ...(methods === undefined ? {} : { launchMethods: methods }),
      }),
    );
    const articleFile = `${folder}/article.md`;
    const articleMarkdown = markdown(files, articleFile, 'The article of this test', problems);
    if (test.value && SLUG.test(id)) {
      tests.push({ id, folder, content: test.value, articleMarkdown, articleFile, place: test.place });
    }
  }

  const methodology = markdown(files, METHODOLOGY_FILE, 'The page on the methodology', problems);
  const read = { cars: whole(cars), roads: whole(roads), tests };
  const translated = house && readTranslations(files, { house, ...read });
  problems.push(...(translated?.problems ?? []));
  return {
    ...(house?.value ? { house: house.value } : {}),
    ...read,
    methodology,
    translations: translated?.translations ?? [],
    problems: sortProblems(withoutEchoes(problems)),
  };
}

function entries<T>(
  files: ContentFiles,
  folder: 'cars' | 'roads',
  schema: z.ZodType<T>,
  problems: Problem[],
  parse: ParseFile,
): Map<string, Parsed<T>> {
  const parsed = new Map<string, Parsed<T>>();
  for (const path of [...files.keys()].sort()) {
    const name = new RegExp(`^content/${folder}/([^/]+)\\.(yaml|yml)$`).exec(path);
    if (!name || isTranslation(path)) continue;
    const [, id = '', ending] = name;
    if (ending === 'yml') problems.push(misnamedFile(path, `${id}.yaml`, `Rename it to ${id}.yaml.`));
    else if (!SLUG.test(id)) problems.push(misnamed(path, 'file'));
    const file = parse(path, files.get(path)!, schema);
    problems.push(...file.problems);
    parsed.set(id, file);
  }
  return parsed;
}

function misnamed(path: string, what: 'file' | 'folder'): Problem {
  return misnamedFile(
    path,
    'lower-case letters, digits and single hyphens',
    `Rename the ${what}: its name becomes part of the address of the page.`,
  );
}

function whole<T>(parsed: ReadonlyMap<string, Parsed<T>>): (T & { readonly id: string })[] {
  return [...parsed].flatMap(([id, { value }]) =>
    value !== undefined && SLUG.test(id) ? [{ ...value, id }] : [],
  );
}

function markdown(files: ContentFiles, file: string, whatItIs: string, problems: Problem[]): string {
  const bytes = files.get(file);
  if (!bytes) {
    problems.push(missingFile(file, whatItIs));
    return '';
  }
  const read = bytesToText(file, bytes);
  if ('text' in read) return read.text;
  problems.push(read.problem);
  return '';
}
