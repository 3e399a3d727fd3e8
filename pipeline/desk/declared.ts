/** Columns of a log as its test declares them, of a note that may be half written. */
import type { DeclaredColumns, ReadOptions } from '../log/log.ts';

interface Noted {
  readonly columns?:
    | Readonly<
        Record<string, { readonly name?: string | undefined; readonly unit?: string | undefined } | undefined>
      >
    | undefined;
}

/** The same note gives the same options, by their text. */
export function declaredOf({ columns }: Noted): ReadOptions {
  const declared: [string, { name: string; unit?: string }][] = [];
  for (const [word, column] of Object.entries(columns ?? {})) {
    if (column?.name === undefined) continue;
    const { name, unit } = column;
    declared.push([word, { name, ...(unit === undefined ? {} : { unit }) }]);
  }
  return declared.length === 0 ? {} : { columns: Object.fromEntries(declared) as DeclaredColumns };
}
