import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markdownToHtml } from '../../pipeline/article/article.ts';
import { parseArticle } from '../../pipeline/article/own-directives.ts';
import { sharedPath } from '../outside/shared-data.ts';

const html = (markdown: string): string => markdownToHtml(markdown, 'article.md').html;

describe('a directive that is written so that it cannot be read', () => {
  it.each([
    [':number {of=0-100-kmh}', 'number'],
    [':number(of=0-100-kmh)', 'number'],
    [':number[of=0-100-kmh]', 'number'],
    ['::count{of=kept}', 'count'],
    [': condition{of=wind}', 'condition'],
    [':number{of="0-100-kmh}', 'number'],
  ])('is told, not printed in silence: %s', (written, name) => {
    const { unread } = parseArticle(`One line.\n\nA *b* 10:30am ${written} c`);
    expect(unread.map(({ name: read, line, column }) => [read, line, column])).toEqual([[name, 3, 15]]);
  });

  it.each(['::figure{show=time-gained attempts="a02 a04}', ':: figure{show=braking}'])(
    'also as a block: %s',
    written => {
      const { problems } = markdownToHtml(`Words.\n\n${written}`, 'article.md');
      expect(problems.map(({ id, severity, where }) => [id, severity, where?.line])).toEqual([
        ['article.not-read', 'error', 3],
      ]);
    },
  );

  it.each([
    'see: figure (3), and the number: {three}',
    '`:number {of=0-100-kmh}` fills in a figure',
    'a \\:number {of=x} with a backslash',
    'a tel:number and a head:count',
    'is read: :number{of=0-100-kmh}',
  ])('is not seen in %s', text => {
    expect(parseArticle(text).unread).toEqual([]);
  });
});

describe('prose that looks like a directive', () => {
  // Observed on micromark-extension-directive 4: each of these is taken for a text directive.
  it.each(['16:9', 'at 10:30am', 'C:drive', 'time 0-60:fast'])('%s stays as written', text => {
    expect(html(text)).toBe(`<p>${text}</p>`);
  });

  const checkValues = sharedPath('check-values.json');
  if (checkValues === undefined)
    process.stderr.write('Skipped, ../shared/check-values.json is absent: directive.prose-trap\n');
  it.skipIf(checkValues === undefined)('keeps every text of check value directive.prose-trap', () => {
    const all: { id: string; inputs: { texts: string[] } }[] = JSON.parse(readFileSync(checkValues!, 'utf8'));
    const trap = all.find(({ id }) => id === 'directive.prose-trap')!;
    expect(trap.inputs.texts.map(html)).toEqual(trap.inputs.texts.map(text => `<p>${text}</p>`));
  });

  it('keeps attributes and inner text of unknown directives', () => {
    expect(html('a :note[inner words]{a=b .c} z')).toBe('<p>a :note[inner words]{a=b .c} z</p>');
    expect(html('::note[inner]{#id a="b c"}')).toBe('<p>::note[inner]{#id a="b c"}</p>');
    expect(html(':::note{a=b}\nwords\n:::')).toBe('<p>:::note{a=b}\nwords\n:::</p>');
  });

  it('keeps emphasis and links inside an unknown directive, as plain Markdown would', () => {
    expect(html('ratio:height[*tall*](https://a.example)')).toBe(
      '<p>ratio:height<a href="https://a.example"><em>tall</em></a></p>',
    );
  });

  it('takes our own names for prose where no attributes follow', () => {
    expect(html('a tel:number and a head:count')).toBe('<p>a tel:number and a head:count</p>');
  });

  it('leaves addresses with a port and letters alone', () => {
    expect(html('see http://a.example:8080/x')).toBe(
      '<p>see <a href="http://a.example:8080/x">http://a.example:8080/x</a></p>',
    );
    expect(html('write to mailto:bob@a.example')).toContain('bob@a.example');
  });

  it('never loses or invents a character of prose with colons', () => {
    const word = fc.stringMatching(/^[A-Za-z0-9]{1,6}$/);
    const prose = fc.array(fc.tuple(word, fc.constantFrom(':', ' : ', '::', ': ', ' :', ' ')), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(prose, parts => {
        const text = `x ${parts.flat().join('')}x`;
        expect(html(text)).toBe(`<p>${text}</p>`);
      }),
    );
  });
});

describe('places', () => {
  it('are those of the file as written, after prose that had to be read again', () => {
    const markdown = 'One 16:9 line.\n\nAt 10:30am or 11:45pm :number{of=x}, then\n  :count{of=kept}';
    expect(parseArticle(markdown).directives.map(({ name, line, column }) => [name, line, column])).toEqual([
      ['number', 3, 23],
      ['count', 4, 3],
    ]);
  });

  it('are found inside quotations, lists and tables', () => {
    const markdown =
      '> a 1:b :count{of=kept}\n\n- x\n  - ::figure{show=braking}\n\n| a |\n|---|\n| :count{of=kept} |';
    expect(parseArticle(markdown).directives.map(({ line, column }) => [line, column])).toEqual([
      [1, 9],
      [4, 5],
      [8, 3],
    ]);
  });

  it('does not read code as directives', () => {
    expect(parseArticle('`:number{of=x}`\n\n    ::figure{show=x}\n').directives).toEqual([]);
  });
});
