/** The numbers that went out, as the program records them, and the corrections that people write in test.yaml. */
import { z } from 'zod';
import { isoDate, prose, START_RULES, slug, words } from './schema-base.ts';

/** Part of a number's key in signed-off.json, or the whole of it. */
const numberKey = z
  .string()
  .regex(/^[^/\s]+(\/[^/\s]+)*$/)
  .max(300)
  .meta({ description: 'a key of signed-off.json or a part of it, such as 0-100-kmh or attempts/a03' });

export const correction = z
  .strictObject({
    date: isoDate.meta({ description: 'Day of the correction, in quotes: "2026-06-02"' }),
    what: prose.meta({ description: 'What was put right, as readers see it' }),
    reason: prose.meta({ description: 'Why it was wrong, as readers see it' }),
    numbers: z.array(numberKey).min(1).max(200).optional().meta({
      description: 'The numbers it covers, by key or part of it; every one that moved where absent',
    }),
  })
  .meta({ description: 'One correction' });

const signedNumber = z
  .strictObject({
    key: numberKey.meta({ description: 'What the number is, the same in every version' }),
    name: words.meta({ description: 'The same for people' }),
    text: words.meta({ description: 'As printed, with its uncertainty' }),
    value: z.number().optional().meta({ description: 'Unrounded, SI' }),
    start_rule: z.enum(START_RULES).optional().meta({ description: 'Start rule it was measured under' }),
    n: z.number().int().nonnegative().optional().meta({ description: 'Kept attempts it was taken from' }),
  })
  .meta({ description: 'One number' });

const signedLog = z
  .strictObject({
    file: words.meta({ description: 'The log, within the folder of the test' }),
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .meta({ description: 'SHA-256 of its bytes' }),
  })
  .meta({ description: 'One log' });

const signedCorrection = z
  .strictObject({
    date: isoDate.meta({ description: 'Day of the correction' }),
    what: prose.meta({ description: 'What was put right' }),
    moved: z
      .array(
        z
          .strictObject({
            key: numberKey.meta({ description: 'Key of the number' }),
            name: words.meta({ description: 'The same for people' }),
            was: words.meta({ description: 'As printed before' }),
            now: words.meta({ description: 'As printed since' }),
          })
          .meta({ description: 'One number that moved' }),
      )
      .max(10000)
      .meta({ description: 'Numbers that moved with it' }),
  })
  .meta({ description: 'One correction that went out' });

/** content/tests/<id>/signed-off.json: the numbers that went out, written by `evenground sign-off`. */
export const signedOffSchema = z
  .strictObject({
    $schema: z.string().max(300).optional().meta({ description: 'Where editors find this schema' }),
    test: slug.meta({ description: 'Id of the test' }),
    signed_off: isoDate.meta({ description: 'Day the numbers went out' }),
    program: words.meta({ description: 'Version of the program that worked them out' }),
    logs: z.array(signedLog).max(1000).optional().meta({
      description: 'The logs the numbers were measured from',
    }),
    corrections: z.array(signedCorrection).max(200).meta({
      description: 'Corrections that had gone out by then, oldest first',
    }),
    numbers: z.array(signedNumber).max(100000).meta({ description: 'Every number that went out' }),
  })
  .meta({ title: 'Signed off', description: 'The numbers of a test that went out' });

export type CorrectionContent = z.infer<typeof correction>;
export type SignedOff = z.infer<typeof signedOffSchema>;
export type SignedNumber = z.infer<typeof signedNumber>;
export type SignedCorrection = z.infer<typeof signedCorrection>;
