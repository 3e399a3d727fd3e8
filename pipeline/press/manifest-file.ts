/** The list of a press folder for other programs: `manifest.json`, its fields described by a JSON Schema beside it. */
import { z } from 'zod';
import { START_RULES } from '../content/schema-base.ts';
import { cautionOf } from '../result/caution.ts';
import type { Publication, TestResult } from '../result/result.ts';

const listedFile = z
  .strictObject({
    path: z.string().meta({ description: 'From the folder this list is in' }),
    media_type: z.string().meta({ description: 'As browsers and mail programs name the format' }),
    bytes: z.int().nonnegative().meta({ description: 'Size of the file' }),
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .meta({ description: 'SHA-256 of its bytes, in hexadecimal' }),
    kind: z
      .enum([
        'figure',
        'figure-html',
        'table',
        'lower-third',
        'guide',
        'article',
        'data',
        'timeline',
        'sheet',
        'plan',
        'note',
      ])
      .meta({ description: 'What it is for' }),
    shows: z.string().meta({ description: 'What it shows or holds, in words' }),
    alt_text: z.string().optional().meta({ description: 'The same for people who cannot see it' }),
    caption: z.string().optional().meta({ description: 'To stand under it' }),
    figure: z.string().optional().meta({ description: 'Which figure it is of; the same for all its files' }),
    figure_number: z.int().positive().optional().meta({ description: 'Its place in the article' }),
    layout: z.string().optional().meta({
      description: 'wide, narrow or print for pages; square, portrait, story or landscape for social pages',
    }),
    paper: z.enum(['light', 'dark', 'mono']).optional().meta({ description: 'The ground it stands on' }),
    text: z.enum(['outlines', 'fonts']).optional().meta({
      description: 'Of an SVG: letters as outlines, or as text that needs the web fonts',
    }),
    width_px: z.int().positive().optional().meta({ description: 'Width; device pixels, for an SVG CSS px' }),
    height_px: z
      .int()
      .positive()
      .optional()
      .meta({ description: 'Height; device pixels, for an SVG CSS px' }),
    scale: z.number().positive().optional().meta({ description: 'Device pixels to a CSS px' }),
    start_rule: z.enum(START_RULES).optional().meta({
      description: 'When the clock starts; absent where no clock starts from rest',
    }),
    attempts: z.int().nonnegative().optional().meta({ description: 'How many attempts it draws' }),
    attempts_kept: z.int().nonnegative().optional().meta({ description: 'How many of those count' }),
  })
  .meta({ description: 'One file' });

const manifestFile = z
  .strictObject({
    $schema: z.string().meta({ description: 'Where the description of these fields stands' }),
    manifest: z
      .literal(1)
      .meta({ description: 'Version of this list; a field may be added under the same one' }),
    test: z.string().meta({ description: 'Id of the test' }),
    title: z.string().meta({ description: 'Title of the article' }),
    publication: z.string().meta({ description: 'Name of the publication' }),
    language: z.string().meta({ description: 'Language of the texts, BCP 47' }),
    date: z.string().meta({ description: 'Day of the test' }),
    published: z.string().optional().meta({ description: 'Day the article went out' }),
    signed_off: z.string().optional().meta({ description: 'Day the numbers were signed off' }),
    licence: z
      .strictObject({ name: z.string(), url: z.string() })
      .meta({ description: 'Of figures and data' }),
    caution: z.string().meta({ description: 'To be told wherever a person could act on a figure' }),
    attempts: z.int().nonnegative().meta({ description: 'Attempts of the day' }),
    attempts_kept: z.int().nonnegative().meta({ description: 'Those that count' }),
    files: z.array(listedFile).meta({ description: 'Every file of the folder but this list, by name' }),
  })
  .meta({ title: 'Press folder', description: 'Every file of the press folder of one test' });

export type ListedFile = z.infer<typeof listedFile>;

/** Name in the folder of a test, and of its schema in the folder above. */
export const MANIFEST_NAME = 'manifest.json';
export const MANIFEST_SCHEMA = 'press/manifest.schema.json';

/** The JSON Schema (draft 2020-12) of the list. */
export const manifestSchemaText = (): string => `${JSON.stringify(z.toJSONSchema(manifestFile), null, 2)}\n`;

/** The list as it is written into a folder. */
export function manifestText(
  test: TestResult,
  { house }: Pick<Publication, 'house'>,
  folder: string,
  files: readonly ListedFile[],
): string {
  const { published, date, title } = test.content;
  const signedOff = test.signedOff?.record.signed_off;
  const manifest: z.infer<typeof manifestFile> = {
    $schema: MANIFEST_SCHEMA.replace('press/', '../'.repeat(folder.split('/').length - 1)),
    manifest: 1,
    test: test.id,
    title,
    publication: house.name,
    language: house.language,
    date,
    ...(published === undefined ? {} : { published }),
    ...(signedOff === undefined ? {} : { signed_off: signedOff }),
    licence: house.licence,
    caution: cautionOf(house),
    attempts: test.attempts.length,
    attempts_kept: test.attempts.filter(({ setAside }) => setAside === undefined).length,
    files: [...files],
  };
  return `${JSON.stringify(manifest, null, 2)}\n`;
}
