/** What the schemas say about a field, for messages. */
import type { z } from 'zod';
import type { Path } from './yaml.ts';

type Schema = z.core.$ZodType;

interface SchemaDef {
  readonly type: string;
  readonly innerType?: Schema;
  readonly element?: Schema;
  readonly valueType?: Schema;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly items?: readonly Schema[];
}

const defOf = (schema: Schema): SchemaDef => schema._zod.def as unknown as SchemaDef;

const withoutOptional = (schema: Schema): Schema => {
  const inner = defOf(schema).innerType;
  return inner === undefined ? schema : withoutOptional(inner);
};

function descriptionOf(schema: Schema): string | undefined {
  return (schema as z.ZodType).meta()?.description;
}

/** The schema of the field at a path; undefined where the path leads nowhere. */
export function schemaAt(schema: Schema, path: Path): Schema | undefined {
  let at: Schema | undefined = schema;
  for (const step of path) {
    if (at === undefined) return undefined;
    const def: SchemaDef = defOf(withoutOptional(at));
    if (def.shape) at = Object.hasOwn(def.shape, step) ? def.shape[step] : undefined;
    else if (def.items) at = def.items[Number(step)];
    else at = def.element ?? def.valueType;
  }
  return at;
}

/** What the field is, in a sentence without a full stop. */
export function meaningAt(schema: Schema, path: Path): string | undefined {
  const at = schemaAt(schema, path);
  if (at === undefined) return undefined;
  return descriptionOf(at) ?? descriptionOf(withoutOptional(at));
}

/** How the field is written: the description of the bare type it was made from. */
export function formAt(schema: Schema, path: Path): string | undefined {
  let at = schemaAt(schema, path);
  if (at === undefined) return undefined;
  at = withoutOptional(at);
  let form = descriptionOf(at);
  for (let parent = at._zod.parent; parent !== undefined; parent = parent._zod.parent) {
    form = (parent as z.ZodType).meta()?.description ?? form;
  }
  return form;
}

/** Names of the fields at a path. */
export function keysAt(schema: Schema, path: Path): string[] {
  const at = schemaAt(schema, path);
  return at === undefined ? [] : Object.keys(defOf(withoutOptional(at)).shape ?? {});
}
