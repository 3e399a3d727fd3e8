import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const PIPELINE = resolve(import.meta.dirname, '../pipeline');

/** Every file that holds a catalogue: those in folders called `words`, and those called so themselves. */
const FILES = (readdirSync(PIPELINE, { recursive: true }) as string[]).filter(
  file => /(^|\/)words\/[^/]+\.ts$|-words\.ts$/.test(file) && !/-de\.ts$/.test(file),
);

type Leaf = string | ((...values: unknown[]) => unknown);
interface Entry {
  readonly path: string;
  readonly en: Leaf;
  readonly de: Leaf;
}

function entriesOf(path: string, en: unknown, de: unknown): readonly Entry[] {
  if (typeof en === 'string' || typeof en === 'function') return [{ path, en: en as Leaf, de: de as Leaf }];
  if (typeof en !== 'object' || en === null) return [];
  return Object.keys(en).flatMap(key =>
    entriesOf(`${path}.${key}`, (en as Record<string, unknown>)[key], (de as Record<string, unknown>)[key]),
  );
}

/** Values a sentence may be asked with; the first kind that it can be made from is taken. */
const PROBES: readonly (readonly unknown[])[] = [
  ['7', '8', '9', '10', '11', '12', '13'],
  [7, 8, 9, 10, 11, 12, 13],
  [['7', '8'], '9', ['10', '11'], 'too few', '12', '13', '14'],
];

function said(leaf: Leaf, probe: readonly unknown[]): string | undefined {
  if (typeof leaf === 'string') return leaf;
  try {
    const text = leaf(...probe.slice(0, Math.max(1, leaf.length)));
    return typeof text === 'string' && !/undefined|NaN|\[object/.test(text) ? text : undefined;
  } catch {
    return undefined;
  }
}

/** The same in both languages, and rightly so: units, standards, symbols, and words that German took over. */
const SAME: readonly RegExp[] = [
  /^(CIPM-2007|SAE J1349|k = 2|sRGB|Median|Pause|Wind|Alpha|Start|Starts|Reserve|Name|Position|Filter|Interpolation|min|Hz)$/,
  /^[\d\s.,;:()–−±%/‘’“”„]*(km\/h|mph|ft|kg|kJ|m|s|in|Wind|Tests|Median|Filter)?[\d\s.,;:()–−±%/]*(km\/h|s|m)?[\d\s.,;:()–−±%/]*(in|, )?[\d\s.,;:()–−±%/]*$/,
];

const catalogues: readonly (readonly [name: string, entries: readonly Entry[]])[] = (
  await Promise.all(
    FILES.map(async file => {
      const module = (await import(join(PIPELINE, file))) as Record<string, unknown>;
      return Object.entries(module).flatMap(([name, value]) => {
        if (typeof value !== 'function' || !/^[a-z]\w*(?<!In)Words$/.test(name) || value.length !== 1)
          return [];
        const [en, de] = [value('en-GB'), value('de-DE')] as unknown[];
        return typeof en === 'object' ? [[`${file} ${name}`, entriesOf('', en, de)] as const] : [];
      });
    }),
  )
).flat();

describe('the catalogues of languages', () => {
  it('are found', () => {
    expect(catalogues.length).toBeGreaterThan(25);
    expect(catalogues.reduce((sum, [, entries]) => sum + entries.length, 0)).toBeGreaterThan(400);
  });

  it.each(catalogues)('%s has German for every sentence, and never the English one', (_, entries) => {
    for (const { path, en, de } of entries) {
      expect(typeof de, path).toBe(typeof en);
      for (const probe of PROBES) {
        const [english, german] = [said(en, probe), said(de, probe)];
        if (english === undefined || german === undefined) continue;
        expect(german.trim() === '' && english.trim() !== '', path).toBe(false);
        if (SAME.some(pattern => pattern.test(english))) continue;
        expect(german, path).not.toBe(english);
      }
    }
  });

  it.each(catalogues)(
    '%s writes German as Germany does: no apostrophe quotes, no decimal point',
    (_, entries) => {
      for (const { path, de } of entries) {
        for (const probe of PROBES) {
          const german = said(de, probe) ?? '';
          expect(german, path).not.toMatch(/[‘”]/);
          expect(german, path).not.toMatch(/\d\.\d/);
        }
      }
    },
  );
});
