/** What a schema found wrong with a value, as problems with places and with what to do in plain words. */
import type { z } from 'zod';
import type { Problem } from '../problem.ts';
import {
  emptyValue,
  missingKey,
  notAChoice,
  outOfRange,
  unknownKey,
  wrongForm,
  wrongLength,
  wrongOtherwise,
  wrongType,
} from '../problems/content.ts';
import { nearMiss, sameButUnit } from './near-miss.ts';
import { formAt, keysAt, meaningAt } from './schema-words.ts';
import type { Path, YamlFile } from './yaml.ts';

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list of two numbers',
  object: 'fields of its own',
  record: 'fields of its own',
};

/** One problem for each fault; an issue that names several unknown fields becomes several problems. */
export function issueToProblems(issue: z.core.$ZodIssue, yaml: YamlFile, schema: z.core.$ZodType): Problem[] {
  const path = issue.path.map(step => (typeof step === 'number' ? step : String(step)));
  const key = fieldName(path);
  const where = yaml.place(path);
  const meaning = meaningAt(schema, path);
  const value = valueAt(yaml.value, path);
  const found = foundText(yaml, path, value);
  const form = formAt(schema, path);
  const expected = form === meaning || form === undefined ? undefined : form;

  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = keysAt(schema, path);
      const written = Object.keys((value as object | undefined) ?? {});
      const free = known.filter(name => !written.includes(name));
      return issue.keys.map(name =>
        unknownKey(
          yaml.keyPlace(path, name),
          quotedName(name),
          sameButUnit(name, free) ?? nearMiss(name, free),
          known,
        ),
      );
    }
    case 'invalid_type':
    case 'invalid_value': {
      if (value === undefined) return [missingKey(yaml.place(path.slice(0, -1)), key, meaning)];
      if (value === null) return [emptyValue(where, key, meaning)];
      if (issue.code === 'invalid_value') {
        const choices = issue.values.map(String);
        return [notAChoice(where, key, choices, found, nearMiss(String(value), choices))];
      }
      const kind = KINDS[issue.expected] ?? 'something else';
      return [
        wrongType(
          where,
          key,
          expected ?? kind,
          kindText(value, found),
          typeMend(issue.expected, value, yaml.source(path), expected),
        ),
      ];
    }
    case 'invalid_format':
      if (value === '') return [emptyValue(where, key, meaning)];
      return [
        wrongForm(where, key, expected ?? meaning ?? 'another form', found, formMend(form, String(value))),
      ];
    case 'too_small':
    case 'too_big': {
      const limit = Number(issue.code === 'too_small' ? issue.minimum : issue.maximum);
      if (issue.origin === 'string' && issue.code === 'too_small') return [emptyValue(where, key, meaning)];
      if (issue.origin === 'string' || issue.origin === 'array') {
        const unit = issue.origin === 'string' ? 'characters' : limit === 1 ? 'entry' : 'entries';
        const size = issue.origin === 'string' ? String(value).trim().length : (value as unknown[]).length;
        const side = issue.code === 'too_small' ? 'at least' : 'at most';
        return [wrongLength(where, key, `${side} ${limit} ${unit}`, String(size))];
      }
      const side =
        issue.code === 'too_small'
          ? issue.inclusive === false
            ? 'more than'
            : 'at least'
          : issue.inclusive === false
            ? 'less than'
            : 'at most';
      return [outOfRange(where, key, `${side} ${limit}`, found)];
    }
    default:
      return [wrongOtherwise(where, key, found)];
  }
}

/** `attempts.3.launch` is told as "launch of attempt 4 in the list": the last name and, in lists, the count. */
function fieldName(path: Path): string {
  if (path.length === 0) return 'The file';
  const last = path.at(-1);
  if (typeof last !== 'number') return quotedName(String(last));
  const owner = path.findLast(step => typeof step === 'string');
  return `Entry ${last + 1} of ${owner ?? 'the list'}`;
}

/** A name somebody wrote, safe to print: anything unusual is shown escaped and in quotes. */
function quotedName(name: string): string {
  return /^[\w-]{1,60}$/.test(name) ? name : shorten(JSON.stringify(name));
}

function shorten(text: string): string {
  const shown = [...text];
  return shown.length > 48 ? `${shown.slice(0, 47).join('')}…` : text;
}

function foundText(yaml: YamlFile, path: Path, value: unknown): string {
  const source = yaml.source(path);
  if (source !== undefined && /^[\x20-\x7e\u00a1-\uffff]+$/.test(source)) return shorten(source);
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'fields of its own';
  return shorten(JSON.stringify(value) ?? String(value));
}

function kindText(value: unknown, found: string): string {
  if (typeof value === 'number') return `the number ${found}`;
  if (typeof value === 'boolean') return `the word ${found}, which means ${value ? 'yes' : 'no'}`;
  return typeof value === 'string' ? `the text ${found}` : found;
}

function typeMend(
  expected: string,
  value: unknown,
  source: string | undefined,
  form: string | undefined,
): string {
  const text = typeof value === 'string' ? value.trim() : undefined;
  if (expected === 'string') {
    if (typeof value === 'object') {
      return 'Write text after the colon; where the text itself contains a colon or begins with a bracket, put double quotes around it.';
    }
    const written = source ?? String(value);
    return form === undefined
      ? `Put double quotes around it: "${shorten(written)}".`
      : formMend(form, written);
  }
  if ((expected === 'number' || expected === 'int') && text !== undefined) return numberMend(text);
  if (expected === 'int') return 'Write a whole number, without a point.';
  if (expected === 'number') return 'Write digits, with a point for decimals.';
  if (expected === 'boolean') {
    if (text !== undefined && /^(y|yes|on)$/i.test(text)) return 'Write true.';
    if (text !== undefined && /^(n|no|off)$/i.test(text)) return 'Write false.';
    return 'Write true or false, without quotes.';
  }
  if (expected === 'array') return 'Begin each entry on a line of its own with a hyphen and a blank.';
  if (expected === 'tuple') return 'Write two numbers in square brackets, such as [250, 1.5].';
  return 'Write its fields on the lines below, each indented by two blanks more than this one.';
}

/** The usual ways in which a number turns out to be text. */
function numberMend(text: string): string {
  if (/^[+-]?\d+(\.\d+)?$/.test(text)) return `Remove the quotes: ${text}.`;
  if (/^\d{1,3}(,\d{3})+$/.test(text)) {
    const plain = text.replaceAll(',', '');
    return /,.*,/.test(text)
      ? `Write ${plain}, without commas.`
      : `Write ${plain} without the comma, or ${text.replace(',', '.')} if the comma stands for a decimal point.`;
  }
  if (/^[+-]?\d+,\d+$/.test(text)) return `Write a decimal point: ${text.replace(',', '.')}.`;
  const unit = /^([+-]?\d+(?:[.,]\d+)?)\s*[^\d\s:.,-]/.exec(text);
  if (unit?.[1]) {
    return `Write the figure alone, ${unit[1].replace(',', '.')}: the unit stands in the name of the field.`;
  }
  return 'Write digits, with a point for decimals, and no unit.';
}

function formMend(form: string | undefined, value: string): string {
  const text = value.trim();
  const hour = /^(\d):([0-5]\d)(:[0-5]\d)?$/.exec(text);
  if (form?.includes('clock') && hour) return `Write "0${text}".`;
  const zone = /^(?:UTC|GMT)?\s*([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(text);
  if (form?.includes('with a sign')) {
    if (/^(z|utc|gmt)$/i.test(text)) return 'Write "+00:00".';
    if (zone) return `Write "${zone[1]}${zone[2]?.padStart(2, '0')}:${zone[3] ?? '00'}".`;
  }
  const short = text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  if (form?.includes('hyphens') && short !== '') return `Write ${shorten(short)}.`;
  return 'Write it in this form.';
}

function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined;
    at = (at as Record<string | number, unknown>)[step];
  }
  return at;
}
