/** Values as YAML text in the manner of the demo's files: words bare, times and dates in quotes, one attempt a line. */

/** Words that YAML or an older reader of it would take for something else. */
const RESERVED = /^(true|false|null|yes|no|on|off|y|n|~)$/i;
const BARE = /^[\p{L}_][\p{L}\p{N} _.,;()/’'–—°²·%+-]*$/u;

/** A single value; inside braces or brackets a comma needs quotes. */
export function scalarText(value: unknown, inFlow: boolean): string {
  if (typeof value !== 'string') return value === null || value === undefined ? 'null' : String(value);
  const isBare =
    BARE.test(value) && !RESERVED.test(value) && !value.endsWith(' ') && !(inFlow && value.includes(','));
  // Every JSON string is a YAML string in double quotes.
  return isBare ? value : JSON.stringify(value);
}

/** Any value on one line. */
export function flowText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flowText).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return scalarText(value, true);
  const fields = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return fields.length === 0
    ? '{}'
    : `{ ${fields.map(([key, inner]) => `${scalarText(key, true)}: ${flowText(inner)}`).join(', ')} }`;
}

/** Longest line of a list's item that is still written on one. */
const LINE_WIDTH = 110;

/** One item of a list with its dash and line end: in braces on one line, in braces over several, or field by field. */
export function lineOf(value: unknown, indent: number, style: 'flow' | 'tall' | 'block'): string {
  const pad = ' '.repeat(indent);
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return `${pad}- ${flowText(value)}\n`;
  const fields = Object.entries(value).filter(([, inner]) => inner !== undefined);
  if (fields.length === 0) return `${pad}- {}\n`;
  const line = `${pad}- ${flowText(value)}\n`;
  if (style === 'flow' && line.length <= LINE_WIDTH) return line;
  if (style !== 'block') {
    const inner = fields
      .map(([key, field]) => `${pad}    ${scalarText(key, true)}: ${flowText(field)},\n`)
      .join('');
    return `${pad}- {\n${inner}${pad}  }\n`;
  }
  return linesOf(value, indent + 2).replace(/^\s*/, `${pad}- `);
}

/** A map or list on lines of its own, each ended. */
export function linesOf(value: unknown, indent: number): string {
  const pad = ' '.repeat(indent);
  if (Array.isArray(value)) return value.map(item => lineOf(item, indent, 'flow')).join('');
  if (typeof value !== 'object' || value === null) return `${pad}${scalarText(value, false)}\n`;
  return Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .map(([key, inner]) => {
      const name = `${pad}${scalarText(key, false)}:`;
      const isEmpty = typeof inner === 'object' && inner !== null && Object.keys(inner).length === 0;
      if (isEmpty) return `${name} ${Array.isArray(inner) ? '[]' : '{}'}\n`;
      return typeof inner === 'object' && inner !== null
        ? `${name}\n${linesOf(inner, indent + 2)}`
        : `${name} ${scalarText(inner, false)}\n`;
    })
    .join('');
}

/** A file of fields. */
export const fieldsText = (fields: Readonly<Record<string, unknown>>): string => linesOf(fields, 0);
