/** Fields of the form: what is written in them is saved by itself, what cannot be saved is said beside them. */
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { type carSchema, type roadSchema, testSchema } from '../../pipeline/content/schema.ts';
import { schemaAt } from '../../pipeline/content/schema-words.ts';
import { localiseDigits } from '../../pipeline/digits.ts';
import { kmhToMps, mpsToMph } from '../../pipeline/units.ts';
import type { Change } from './answers.ts';
import { valueAt } from './changes.ts';
import { change } from './saving.ts';
import { publication, speedUnitShown, test } from './state.ts';
import { words } from './words.ts';

type Path = Change['path'];

/** A file whose fields the form shows and changes. */
export interface Bound {
  readonly value: unknown;
  readonly schema: typeof testSchema | typeof carSchema | typeof roadSchema;
  readonly change: (path: Path, value: unknown) => void;
}

/** The open test. */
const theTest = (): Bound => ({ value: test.value, schema: testSchema, change });

interface FieldProps {
  /** The file it belongs to; the open test where absent. */
  readonly bound?: Bound;
  readonly path: Path;
  readonly label: string;
  readonly unit?: string;
  readonly hint?: string;
  readonly kind?: 'text' | 'number' | 'prose' | 'date' | 'clock';
  /** Said to screen readers in front of the label where several fields are called alike. */
  readonly of?: string;
  readonly placeholder?: string;
  /** The whole width there is. */
  readonly whole?: boolean;
}

interface Issue {
  readonly code?: string;
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
  readonly inclusive?: boolean;
}

interface Checking {
  safeParse(value: unknown): { success: boolean; error?: { issues: readonly Issue[] } };
}

/** What the schema holds against a value, in plain words. */
function faultInWords({ code, minimum, maximum, inclusive }: Issue, isNumber: boolean): string {
  const { field: w } = words();
  const printed = (limit: number | bigint): string => String(limit).replace('-', '−');
  if (code === 'too_big' && maximum !== undefined) return (isNumber ? w.atMost : w.tooLong)(printed(maximum));
  if (code === 'too_small' && minimum !== undefined && isNumber)
    return (inclusive === false ? w.moreThan : w.atLeast)(printed(minimum));
  return w.otherForm;
}

/** What may be saved: the value itself, null for an empty field, or why it cannot be. */
export function readTyped(
  text: string,
  kind: FieldProps['kind'],
  path: Path,
  schemaOfFile: Bound['schema'] = testSchema,
): { readonly value: unknown } | { readonly wrong: string } {
  const w = words();
  const trimmed = text.trim();
  const schema = schemaAt(schemaOfFile, path) as Checking | undefined;
  // Of a test anything may be missing for now; a car or a road is relied upon by others.
  if (trimmed === '' && schemaOfFile !== testSchema && schema?.safeParse(undefined).success === false)
    return { wrong: w.field.needed };
  if (trimmed === '') return { value: null };
  const value = kind === 'number' ? Number(trimmed.replace(',', '.').replace('−', '-')) : trimmed;
  if (kind === 'number' && !Number.isFinite(value)) return { wrong: w.field.notNumber };
  const checked = schema?.safeParse(value);
  if (checked?.success === false) {
    return {
      wrong: kind === 'clock' ? w.runs.badClock : faultInWords(checked.error!.issues[0]!, kind === 'number'),
    };
  }
  return { value };
}

const textOf = (value: unknown): string => (value === undefined || value === null ? '' : String(value));

/** Files hold km/h: beside such a field stands what that is in miles an hour, where speeds are shown in them. */
function inMiles(hint: string | undefined, text: string): string {
  const kmh = Number(text.trim().replace(',', '.'));
  const mph = mpsToMph(kmhToMps(kmh));
  const known = text.trim() !== '' && Number.isFinite(mph);
  const language = publication.value?.house.language ?? 'en-GB';
  const said = words().field.inMiles(
    known ? localiseDigits(String(Number(mph.toPrecision(3))), language) : undefined,
  );
  return hint === undefined ? said : `${hint} ${said}`;
}

/** One line, or several for prose, of the test. */
export function Field({
  bound = theTest(),
  path,
  label,
  unit,
  hint,
  kind = 'text',
  of,
  placeholder,
  whole,
}: FieldProps) {
  const stored = textOf(valueAt(bound.value, path));
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const read = typed === undefined ? undefined : readTyped(typed, kind, path, bound.schema);
  const wrong = read !== undefined && 'wrong' in read ? read.wrong : undefined;
  const told = unit === 'km/h' && speedUnitShown() === 'mph' ? inMiles(hint, typed ?? stored) : hint;
  const write = (text: string) => {
    setTyped(text);
    const now = readTyped(text, kind, path, bound.schema);
    if ('value' in now && textOf(now.value) !== textOf(valueAt(bound.value, path)))
      bound.change(path, now.value);
  };
  return (
    <Lined label={label} unit={unit} hint={told} wrong={wrong} of={of} wide={kind === 'prose'} whole={whole}>
      {given =>
        kind === 'prose' ? (
          <Growing {...given} value={typed ?? stored} onInput={write} onDone={() => setTyped(undefined)} />
        ) : (
          <Line
            {...given}
            kind={kind}
            placeholder={placeholder}
            value={typed ?? stored}
            onInput={write}
            // What cannot be saved stays where it was typed, with the reason beside it.
            onDone={() => wrong === undefined && setTyped(undefined)}
          />
        )
      }
    </Lined>
  );
}

interface ChoiceProps {
  readonly bound?: Bound;
  readonly path: Path;
  readonly label: string;
  readonly options: Readonly<Record<string, string>>;
  readonly none?: string;
  readonly hint?: string;
  readonly of?: string;
}

/** One of a few words. */
export function Choice({ bound = theTest(), path, label, options, none, hint, of }: ChoiceProps) {
  const stored = textOf(valueAt(bound.value, path));
  return (
    <Lined label={label} hint={hint} of={of}>
      {given => (
        <select
          {...given}
          value={stored}
          onChange={event =>
            bound.change(path, event.currentTarget.value === '' ? null : event.currentTarget.value)
          }
        >
          {(none !== undefined || stored === '') && <option value="">{none ?? words().begin.choose}</option>}
          {Object.entries(options).map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </select>
      )}
    </Lined>
  );
}

interface Given {
  readonly id: string;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': boolean | undefined;
}

interface LinedProps {
  readonly label: string;
  readonly unit?: string | undefined;
  readonly hint?: string | undefined;
  readonly wrong?: string | undefined;
  readonly of?: string | undefined;
  readonly wide?: boolean;
  readonly whole?: boolean | undefined;
  readonly children: (given: Given) => ComponentChildren;
}

/** A label over a ruled line, the unit at its end, what is wrong under it. */
export function Lined({ label, unit, hint, wrong, of, wide = false, whole = false, children }: LinedProps) {
  const id = useId();
  const describedBy = [hint === undefined ? '' : `${id}-hint`, wrong === undefined ? '' : `${id}-wrong`]
    .filter(Boolean)
    .join(' ');
  return (
    <div class={['field', wide ? 'wide' : '', whole ? 'whole' : ''].filter(Boolean).join(' ')}>
      <label for={id}>
        {of !== undefined && <span class="unseen">{of}: </span>}
        {label}
        {unit !== undefined && <span class="unseen">, {unit}</span>}
      </label>
      <div class="line">
        {children({
          id,
          'aria-describedby': describedBy === '' ? undefined : describedBy,
          'aria-invalid': wrong === undefined ? undefined : true,
        })}
        {unit !== undefined && (
          <span class="unit" aria-hidden="true">
            {unit}
          </span>
        )}
      </div>
      {hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {wrong !== undefined && (
        <p class="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

interface GrowingProps extends Given {
  readonly value: string;
  readonly onInput: (text: string) => void;
  readonly onDone: () => void;
}

interface LineProps extends GrowingProps {
  readonly kind: FieldProps['kind'];
  readonly placeholder: string | undefined;
}

function Line({ kind, placeholder, value, onInput, onDone, ...given }: LineProps) {
  const acts = {
    ...given,
    value,
    onInput: (event: { readonly currentTarget: HTMLInputElement }) => onInput(event.currentTarget.value),
    onBlur: onDone,
  };
  if (kind === 'date') return <input {...acts} type="date" />;
  return (
    <input
      {...acts}
      {...(kind === 'number' ? { inputMode: 'decimal' } : {})}
      class={kind === 'number' || kind === 'clock' ? 'figure-input' : undefined}
      autocomplete="off"
      spellcheck={kind === 'text'}
      placeholder={placeholder}
    />
  );
}

/** A text field as tall as its text. */
function Growing({ value, onInput, onDone, ...given }: GrowingProps) {
  const area = useRef<HTMLTextAreaElement>(null);
  // The height follows the text.
  useEffect(() => {
    const element = area.current!;
    element.style.height = 'auto';
    element.style.height = `${element.scrollHeight + 2}px`;
  }, [value]);
  return (
    <textarea
      {...given}
      ref={area}
      rows={1}
      value={value}
      onInput={event => onInput(event.currentTarget.value)}
      onBlur={onDone}
    />
  );
}
