import fc from 'fast-check';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { holdsText, outlineText, shareGlyphs } from '../../pipeline/figure/outline-text.ts';
import { element, parseSvg, type SvgElement, serialiseSvg, tidySvg } from '../../pipeline/figure/svg-tree.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

/** Every point of compacted path data, in px. */
function pointsOf(d: string): readonly (readonly [number, number])[] {
  const points: (readonly [number, number])[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, command = '', rest = ''] of d.matchAll(/([mlqcz])([^mlqcz]*)/g)) {
    const steps = (rest.match(/-?\d+/g) ?? []).map(Number);
    if (command === 'z') [x, y] = [startX, startY];
    const [fromX, fromY] = [x, y];
    for (let i = 0; i < steps.length; i += 2) {
      [x, y] = [fromX + steps[i]!, fromY + steps[i + 1]!];
      points.push([x / 100, y / 100]);
    }
    if (command === 'm') [startX, startY] = [x, y];
  }
  return points;
}

/** Path data in px compacted by way of its text: the same as the lettering does from its numbers. */
function compacted(d: string): string {
  let [x, y, startX, startY, text] = [0, 0, 0, 0, ''];
  for (const [, command = '', rest = ''] of d.matchAll(/([MLQCZ])([^MLQCZ]*)/g)) {
    const numbers = (rest.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(digits =>
      Math.round(Number(digits) * 100),
    );
    if (command === 'Z') {
      text += 'z';
      [x, y] = [startX, startY];
      continue;
    }
    const steps = numbers.map((value, index) => value - (index % 2 === 0 ? x : y));
    text += command.toLowerCase();
    text += steps.map((step, index) => (index > 0 && step >= 0 ? ` ${step}` : step)).join('');
    [x, y] = numbers.slice(-2) as [number, number];
    if (command === 'M') [startX, startY] = [x, y];
  }
  return text;
}

const absolutePoints = (d: string): readonly (readonly [number, number])[] =>
  [...d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe('the tree of an SVG', () => {
  it('is written as it was read, whatever characters stand in text and attributes', () => {
    // XML itself turns a carriage return into a line feed, and white space in attributes into spaces.
    const text = fc.string({ unit: 'grapheme' }).filter(s => !s.includes('\r'));
    const clean = (s: string) => s.replace(/[^\t\n\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '');
    fc.assert(
      fc.property(text, text, (content, value) => {
        const label = value.replace(/\s/g, ' ');
        const read = parseSvg(serialiseSvg(element('text', { label }, [content])));
        expect(read.attributes.label).toBe(clean(label));
        expect(read.children.join('')).toBe(clean(content));
      }),
    );
  });

  it('keeps markup in a text a text', () => {
    const made = element('text', { label: '"><script>' }, ['<script>alert(1)</script> & "more"']);
    expect(serialiseSvg(made)).toBe(
      '<text label="&quot;&gt;&lt;script&gt;">&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;more&quot;</text>',
    );
  });

  it('loses roles, empty groups and hidden paths when tidied, and no mark', () => {
    const read = parseSvg(
      '<g class="a" role="b"><g><path d="M0,0h0v0h0Z"/></g><g transform="translate(0,0)"><path d="M1.23456,2L3,4" stroke="#000"/></g><path d="" display="none"/></g>',
    );
    expect(tidySvg(read).map(serialiseSvg).join('')).toBe('<path d="M1.23,2L3,4" stroke="#000"/>');
  });
});

describe('text as outlines', () => {
  it('is compacted to the same points within half a hundredth of a pixel', () => {
    const text = '0–100 km/h, 6.05 s ± 0.03 s';
    const style = { face: 'sans', weight: 400, sizePx: 13 } as const;
    const d = lettering.path(text, style, 10.3, 20.7);
    const compact = lettering.compactPath([{ text, x: 10.3, y: 20.7 }], style);
    expect(compact).toBe(compacted(d));
    const before = absolutePoints(d);
    const after = pointsOf(compact);
    expect(after).toHaveLength(before.length);
    for (const [i, [x, y]] of before.entries()) {
      expect(Math.abs(after[i]![0] - x)).toBeLessThanOrEqual(0.005 + 1e-9);
      expect(Math.abs(after[i]![1] - y)).toBeLessThanOrEqual(0.005 + 1e-9);
    }
  });

  it.each([
    ['start', 0],
    ['middle', 0.5],
    ['end', 1],
  ] as const)('starts where the anchor %s says', (anchor, share) => {
    const style = { face: 'sans', weight: 600, sizePx: 12 } as const;
    const width = lettering.width('100 km/h', style);
    const text = element(
      'text',
      { x: 200, y: 50, 'text-anchor': anchor, 'font-size': '12px', 'font-weight': '600' },
      ['100 km/h'],
    );
    const outlined = outlineText(text, lettering) as SvgElement;
    expect(outlined.attributes.d).toBe(compacted(lettering.path('100 km/h', style, 200 - share * width, 50)));
  });

  it('keeps rotation, fill and the lines of tspans, and leaves no text behind', () => {
    const read = parseSvg(
      '<svg font-family="Source Sans 3"><text transform="translate(14,60) rotate(30)" fill="#123456" font-size="11px"><tspan>A</tspan><tspan x="0" dy="13">B</tspan></text></svg>',
    );
    const outlined = outlineText(read, lettering) as SvgElement;
    expect(holdsText(outlined)).toBe(false);
    const path = outlined.children[0] as SvgElement;
    const style = { face: 'sans', weight: 400, sizePx: 11 } as const;
    expect(path.attributes.transform).toBe('translate(14,60) rotate(30) scale(0.01)');
    expect(path.attributes.fill).toBe('#123456');
    expect(path.attributes.d).toBe(
      compacted(lettering.path('A', style, 0, 0) + lettering.path('B', style, 0, 13)),
    );
  });
});

describe('text with each glyph written once', () => {
  const picture = (): SvgElement =>
    parseSvg(
      '<svg xmlns="http://www.w3.org/2000/svg" width="260" height="80" font-family="Source Sans 3">' +
        '<text x="8" y="20" font-size="13px" fill="#123456">0–100 km/h in 7.57 s</text>' +
        '<text transform="translate(20,60) rotate(-8)" text-anchor="start" font-size="12px" font-weight="600">Attempt 10, 0–100 km/h</text>' +
        '<text x="200" y="70" text-anchor="end" font-size="23px" font-family="Source Serif 4, serif" font-weight="600" stroke="#000" stroke-width="0.5">Anna</text></svg>',
    );
  const uses = (node: SvgElement): readonly SvgElement[] =>
    node.children.flatMap(child =>
      typeof child === 'string' ? [] : child.name === 'use' ? [child] : uses(child),
    );

  it('holds every outline once, and uses no other', () => {
    const shared = shareGlyphs(picture(), lettering);
    const defined = (shared.children[0] as SvgElement).children.map(path => (path as SvgElement).attributes);
    const names = defined.map(({ id }) => id);
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(uses(shared).map(use => use.attributes['xlink:href']!.slice(1)))).toEqual(new Set(names));
    expect(holdsText(shared)).toBe(false);
    expect(uses(shared)).toHaveLength(39);
    expect(names.length).toBeLessThan(39);
    for (const { d } of defined) expect(d).toMatch(/^m.*z$/);
  });

  it('names a glyph alike in every picture, so that two in one page agree', () => {
    const one = parseSvg('<svg font-family="Source Sans 3"><text font-size="9px">a1</text></svg>');
    const other = parseSvg('<svg font-family="Source Sans 3"><text font-size="20px">Ba</text></svg>');
    const definitions = [one, other].map(svg =>
      (shareGlyphs(svg, lettering).children[0] as SvgElement).children.map(path => serialiseSvg(path)),
    );
    expect(definitions[0]!.filter(path => definitions[1]!.includes(path))).toHaveLength(1);
  });

  it('looks as outlines do', async () => {
    const [whole, shared] = await Promise.all(
      [outlineText(picture(), lettering), shareGlyphs(picture(), lettering)].map(svg =>
        sharp(Buffer.from(serialiseSvg(svg)), { density: 288 })
          .flatten({ background: '#fff' })
          .greyscale()
          .raw()
          .toBuffer(),
      ),
    );
    let [ink, apart, most] = [0, 0, 0];
    for (const [at, value] of whole!.entries()) {
      ink += 255 - value;
      apart += Math.abs(value - shared![at]!);
      most = Math.max(most, Math.abs(value - shared![at]!));
    }
    // A point is off by a twentieth of a pixel at most, three times that at this density: only edges differ a little.
    expect(ink).toBeGreaterThan(1_000_000);
    expect(apart / ink).toBeLessThan(0.04);
    expect(most).toBeLessThan(128);
  });
});
