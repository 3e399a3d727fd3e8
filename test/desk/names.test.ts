import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { freeName, logFileName, nameToSlug } from '../../pipeline/desk/names.ts';
import { newContentText, pathOfNew } from '../../pipeline/desk/new-content.ts';

describe('a name for a file', () => {
  it.each([
    ['Wren in the rain', 'wren-in-the-rain'],
    ['  Grün & Größer – 2. Tag ', 'gruen-groesser-2-tag'],
    ['Café Ångström', 'cafe-angstroem'],
    ['../../etc/passwd', 'etc-passwd'],
    ['日本', 'test'],
    ['', 'test'],
  ])('%j is %j', (name, slug) => {
    expect(nameToSlug(name, 'test')).toBe(slug);
  });

  it('is always one that content may have', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 90 }), name => {
        expect(nameToSlug(name, 'x')).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
        const { stem, ending } = logFileName(name);
        expect(`${stem}.${ending}`).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*\.[a-z0-9]{1,8}$/);
      }),
    );
  });

  it('is the first that nobody has', () => {
    const taken = new Set(['day', 'day-2']);
    expect(freeName('day', name => taken.has(name))).toBe('day-3');
  });
});

describe('a new file', () => {
  it.each(['test', 'car', 'road'] as const)(
    'of a %s is YAML, before and after its lines are filled in',
    kind => {
      const text = newContentText(kind, {});
      expect(parse(text)).toBeNull();
      const filled = text.replace(/^# (\w+: )- (.*)$/gm, '$1\n  - $2').replace(/^# (\w+): .*$/gm, '$1: x');
      expect(Object.keys(parse(filled) as object).length).toBeGreaterThan(6);
      expect(pathOfNew(kind, 'x')).toMatch(/^content\/(tests\/x\/test|cars\/x|roads\/x)\.yaml$/);
    },
  );

  it('holds what was told, in the usual order', () => {
    const text = newContentText('test', { date: '2026-05-12', title: 'A day: "windy"', car: 'wren' });
    expect(parse(text)).toEqual({ title: 'A day: "windy"', car: 'wren', date: '2026-05-12' });
    expect(text.indexOf('title')).toBeLessThan(text.indexOf('car:'));
  });
});
