import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesApart, type MarkedLine } from '../../../site/desk/lines-apart.ts';

const textOf = (lines: readonly MarkedLine[]): string => lines.map(({ text }) => text).join('\n');
const common = (lines: readonly MarkedLine[]): string[] =>
  lines.filter(({ only }) => !only).map(({ text }) => text);

describe('two versions of a file', () => {
  const version = fc
    .array(fc.constantFrom('a: 1', 'b: 2', 'c: 3', ''), { maxLength: 12 })
    .map(lines => lines.join('\n'));

  it('are shown whole, and what is not marked is the same in both', () => {
    fc.assert(
      fc.property(version, version, (yours, disk) => {
        const { one, other } = linesApart(yours, disk);
        expect(textOf(one)).toBe(yours);
        expect(textOf(other)).toBe(disk);
        expect(common(one)).toEqual(common(other));
      }),
    );
  });

  it('that are alike have nothing marked', () => {
    const { one, other } = linesApart('a\nb', 'a\nb');
    expect([...one, ...other].some(({ only }) => only)).toBe(false);
  });

  it('differ only where a line was put in', () => {
    const { one, other } = linesApart('a\nb\nc', 'a\nnew\nb\nc');
    expect(one.some(({ only }) => only)).toBe(false);
    expect(other.filter(({ only }) => only)).toEqual([{ text: 'new', only: true }]);
  });
});
