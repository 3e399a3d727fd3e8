/** One name for one content: SHA-256 of plain data written down in one way only. */
import { createHash } from 'node:crypto';

/**
 * SHA-256, hexadecimal, of plain data. Equal data give equal digests; what JSON would confuse (−0 with 0, NaN with
 * null, absent with undefined, sets and typed arrays with objects) is kept apart. Fields count in the order in which
 * they stand.
 * @throws TypeError for a function or a symbol, which have no content
 */
export function digestOf(value: unknown): string {
  const parts: string[] = [];
  write(value, parts);
  return createHash('sha256').update(parts.join('')).digest('hex');
}

export const bytesDigest = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

function write(value: unknown, parts: string[]): void {
  switch (typeof value) {
    case 'string':
      parts.push(JSON.stringify(value));
      return;
    case 'number':
      parts.push(Object.is(value, -0) ? '-0' : String(value));
      return;
    case 'bigint':
      parts.push(`${value}n`);
      return;
    case 'function':
    case 'symbol':
      throw new TypeError(`A ${typeof value} has no content to be told by`);
    case 'object':
      if (value === null) break;
      writeObject(value, parts);
      return;
  }
  parts.push(String(value));
}

function writeObject(value: object, parts: string[]): void {
  if (Array.isArray(value)) writeList('[', value, parts);
  else if (value instanceof Set) writeList('Set[', [...value], parts);
  else if (value instanceof Map) writeList('Map[', [...value], parts);
  else if (ArrayBuffer.isView(value)) {
    const bytes = new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
    parts.push(`${value.constructor.name}(${bytesDigest(bytes)})`);
  } else writeFields(value, parts);
}

function writeFields(value: object, parts: string[]): void {
  parts.push('{');
  for (const [key, field] of Object.entries(value)) {
    parts.push(JSON.stringify(key), ':');
    write(field, parts);
    parts.push(',');
  }
  parts.push('}');
}

function writeList(open: string, items: readonly unknown[], parts: string[]): void {
  parts.push(open);
  for (const item of items) {
    write(item, parts);
    parts.push(',');
  }
  parts.push(']');
}
