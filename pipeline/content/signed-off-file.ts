/** Reads signed-off.json, one number a line, so that what is wrong with a number can be told with its line. */
import type { z } from 'zod';
import type { Place, Problem } from '../problem.ts';
import { signedOffUnreadable } from '../problems/sign-off.ts';
import { type SignedOff, signedOffSchema } from './sign-off-schema.ts';
import { bytesToText } from './text.ts';

/** A record with the line of each number in its file. */
export interface SignedOffFile {
  readonly file: string;
  readonly record: SignedOff;
  readonly lineOf: ReadonlyMap<string, number>;
  /** Of each log, by its file. */
  readonly logLineOf: ReadonlyMap<string, number>;
}

export const SIGNED_OFF_NAME = 'signed-off.json';

/** The record, or the one problem that keeps it from being read; never throws on what a file holds. */
export function readSignedOff(
  file: string,
  bytes: Uint8Array,
): { readonly signedOff: SignedOffFile } | { readonly problem: Problem } {
  const decoded = bytesToText(file, bytes);
  if ('problem' in decoded) return decoded;
  const lines = decoded.text.split('\n');
  let value: unknown;
  try {
    value = JSON.parse(decoded.text);
  } catch (error) {
    return { problem: signedOffUnreadable(syntaxPlace(file, error as Error), 'its syntax is broken') };
  }
  const numberLines = lines.flatMap((line, index) => (/^\s*\{\s*"key"/.test(line) ? [index + 1] : []));
  const checked = signedOffSchema.safeParse(value);
  if (!checked.success) return { problem: faultToProblem(file, checked.error.issues[0]!, numberLines) };
  const record = checked.data;
  // Moves under a correction come before the numbers, and are written on lines of their own as well.
  const from = numberLines.slice(-record.numbers.length);
  const lineOf = new Map(record.numbers.map(({ key }, index) => [key, from[index] ?? 1]));
  const logLineOf = new Map(
    (record.logs ?? []).map(log => [
      log.file,
      lines.findIndex(line => line.includes(JSON.stringify(log.file))) + 1,
    ]),
  );
  return { signedOff: { file, record, lineOf, logLineOf } };
}

function syntaxPlace(file: string, error: Error): Place {
  const [, line, column] = /line (\d+) column (\d+)/.exec(error.message) ?? [];
  return { file, line: Number(line ?? 1), column: Number(column ?? 1) };
}

function faultToProblem(
  file: string,
  { path, message }: z.core.$ZodIssue,
  lines: readonly number[],
): Problem {
  const [owner, index] = path;
  const line = owner === 'numbers' && typeof index === 'number' ? (lines[index] ?? 1) : 1;
  const field = path.map(String).join('.');
  const where: Place = { file, line, ...(field === '' ? {} : { field }) };
  return signedOffUnreadable(where, `${field === '' ? 'it' : field}: ${message}`);
}

/** A record as the file's text: what a person may want to read first, then one number a line. */
export function signedOffToText(record: SignedOff): string {
  const { numbers, ...head } = record;
  const start = JSON.stringify({ $schema: '../../schema/signed-off.json', ...head }, null, 2).replace(
    /\n\}$/,
    '',
  );
  const lines = numbers.map(number => `    ${JSON.stringify(number)}`);
  return `${start},\n  "numbers": [\n${lines.join(',\n')}\n  ]\n}\n`;
}
