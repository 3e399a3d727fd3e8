/** A built site has nothing of the desk: no page, no script, no word of its interface. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { builtSite, ROOT } from './built-site.ts';

/** What the desk's page or server cannot be without, and where it stands there. */
const MARKS: Readonly<Record<string, string>> = {
  '/desk/api/': 'site/desk/server.ts',
  'x-desk-token': 'site/desk/server.ts',
  'desk-unsent-': 'site/desk/saving.ts',
  'sheet-of-form': 'site/desk/Desk.tsx',
  'strip-box': 'site/desk/desk.css',
  'u-over': 'site/desk/desk.css',
};
const TEXT = /\.(html|js|mjs|css|json|xml|txt|webmanifest|map)$/;

let folder: string;
let files: readonly string[];
beforeAll(async () => {
  ({ folder } = await builtSite());
  files = (readdirSync(folder, { recursive: true }) as string[]).map(file => file.split(sep).join('/'));
});

describe('a built site', () => {
  it('has no page, script or style of the desk’s', () => {
    expect(files).toContain('index.html');
    expect(files.filter(file => /(^|\/)desk([./-]|$)/i.test(file))).toEqual([]);
  });

  it('holds none of the words by which its page and server know each other', () => {
    for (const [mark, source] of Object.entries(MARKS))
      expect(readFileSync(join(ROOT, source), 'utf8'), `${source} has changed`).toContain(mark);
    const texts = files.filter(file => TEXT.test(file));
    expect(texts.some(file => file.endsWith('.js'))).toBe(true);
    const found = texts.flatMap(file => {
      const text = readFileSync(join(folder, file), 'utf8');
      return Object.keys(MARKS).flatMap(mark => (text.includes(mark) ? [`${file}: ${mark}`] : []));
    });
    expect(found).toEqual([]);
  });
});
