/** JSON Schemas (draft 2020-12) of the content files, for completion and hints in editors. */
import { z } from 'zod';
import { carSchema, houseSchema, roadSchema, testSchema } from './schema.ts';
import { signedOffSchema } from './sign-off-schema.ts';
import { carWordsSchema, houseWordsSchema, roadWordsSchema, testWordsSchema } from './translation-schema.ts';

const SCHEMAS = {
  house: houseSchema,
  car: carSchema,
  road: roadSchema,
  test: testSchema,
  'signed-off': signedOffSchema,
  'house-words': houseWordsSchema,
  'car-words': carWordsSchema,
  'road-words': roadWordsSchema,
  'test-words': testWordsSchema,
} as const;

export const SCHEMA_FOLDER = 'content/schema';

/** Text of every schema file by its path; the same text every time. */
export function contentSchemaFiles(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(SCHEMAS).map(([name, schema]) => [
      `${SCHEMA_FOLDER}/${name}.json`,
      `${JSON.stringify(z.toJSONSchema(schema, { io: 'input' }), null, 2)}\n`,
    ]),
  );
}

/**
 * The line at the top of a content file that tells editors with YAML support where its schema is,
 * such as `# yaml-language-server: $schema=../../schema/test.json` in a test.yaml.
 */
export function schemaHint(path: string): string | undefined {
  const kinds: readonly (readonly [RegExp, string])[] = [
    [/^content\/house\.[a-z]{2}\.yaml$/, 'schema/house-words.json'],
    [/^content\/cars\/[^/]+\.[a-z]{2}\.yaml$/, '../schema/car-words.json'],
    [/^content\/roads\/[^/]+\.[a-z]{2}\.yaml$/, '../schema/road-words.json'],
    [/^content\/tests\/[^/]+\/test\.[a-z]{2}\.yaml$/, '../../schema/test-words.json'],
    [/^content\/house\.yaml$/, 'schema/house.json'],
    [/^content\/cars\/[^/]+\.yaml$/, '../schema/car.json'],
    [/^content\/roads\/[^/]+\.yaml$/, '../schema/road.json'],
    [/^content\/tests\/[^/]+\/test\.yaml$/, '../../schema/test.json'],
  ];
  const kind = kinds.find(([pattern]) => pattern.test(path));
  return kind && `# yaml-language-server: $schema=${kind[1]}`;
}
