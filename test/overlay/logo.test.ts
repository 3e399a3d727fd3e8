import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readLogo } from '../../pipeline/overlay/logo.ts';
import { LOGO_BOX, rebuildLogoSvg } from '../../pipeline/overlay/logo-svg.ts';
import { decodePng } from './compare-pictures.ts';

const FILE = 'content/logo.svg';
const GROUND = '#fbf9f4';
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const svg = (inside: string, attributes = ''): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 20" ${attributes}>${inside}</svg>`;
const MARK = '<path fill="#9a3412" d="M0 20L20 0L40 20Z"/>';
const idsOf = async (text: string | Uint8Array): Promise<readonly string[]> =>
  (await readLogo(FILE, typeof text === 'string' ? bytes(text) : text, GROUND)).problems.map(({ id }) => id);

describe('a logo', () => {
  it('of SVG is drawn as pixels with its own shape, colour and clear ground', async () => {
    const { picture, problems } = await readLogo(FILE, bytes(svg(MARK)), GROUND);
    expect(problems).toEqual([]);
    expect([picture!.widthPx, picture!.heightPx]).toEqual([LOGO_BOX.widthPx, LOGO_BOX.heightPx]);
    const { rgba, widthPx } = await decodePng(Buffer.from(picture!.pngBase64, 'base64'));
    const pixel = (x: number, y: number) => [...rgba.slice((y * widthPx + x) * 4, (y * widthPx + x) * 4 + 4)];
    expect(pixel(360, 300)).toEqual([0x9a, 0x34, 0x12, 255]);
    expect(pixel(5, 5)[3]).toBe(0);
  });

  it('of PNG is made anew, no larger than needed', async () => {
    const png = await sharp({ create: { width: 1600, height: 400, channels: 4, background: '#9a3412' } })
      .withMetadata({ exif: { IFD0: { Copyright: 'kept nowhere' } } })
      .png()
      .toBuffer();
    const { picture, problems } = await readLogo('content/logo.png', png, GROUND);
    expect(problems).toEqual([]);
    expect([picture!.widthPx, picture!.heightPx]).toEqual([720, 180]);
    expect(Buffer.from(picture!.pngBase64, 'base64').includes('kept nowhere')).toBe(false);
  });

  it('is the same bytes from the same file', async () => {
    const [one, other] = await Promise.all([1, 2].map(() => readLogo(FILE, bytes(svg(MARK)), GROUND)));
    expect(one!.picture!.pngBase64).toBe(other!.picture!.pngBase64);
  });

  it('with handlers and scripts is the same picture as without, and nothing of them is kept', async () => {
    const hostile = svg(
      `<script>alert(1)</script><g onclick="alert(2)"><path onload="alert(3)" fill="#9a3412" d="M0 20L20 0L40 20Z"/></g><set attributeName="onmouseover" to="alert(4)"/>`,
      'onload="alert(5)"',
    );
    const clean = svg(`<g>${MARK}</g>`);
    expect((await readLogo(FILE, bytes(hostile), GROUND)).picture).toEqual(
      (await readLogo(FILE, bytes(clean), GROUND)).picture,
    );
    const rebuilt = rebuildLogoSvg(FILE, hostile);
    expect('svg' in rebuilt && rebuilt.svg).not.toMatch(/alert|on(load|click|mouseover)|script/);
  });

  it('that would load something is refused, and the reference told', async () => {
    for (const inside of [
      '<image href="https://elsewhere.example/a.png" width="9" height="9"/>',
      '<image xlink:href="file:///etc/passwd" width="9" height="9"/>',
      '<use href="other.svg#a"/>',
      '<rect width="9" height="9" fill="url(https://elsewhere.example/a.svg#b)"/>',
      '<rect width="9" height="9" style="fill:url(&quot;//elsewhere.example/a&quot;)"/>',
      '<linearGradient id="a" href="https://elsewhere.example/#b"/>',
    ]) {
      const { picture, problems } = await readLogo(FILE, bytes(svg(inside + MARK)), GROUND);
      expect(picture, inside).toBeUndefined();
      expect(problems[0], inside).toMatchObject({ id: 'logo.refers', severity: 'error' });
    }
  });

  it('with parts that would be missing is refused, and they are named', async () => {
    const { problems } = await readLogo(
      FILE,
      bytes(
        svg(`<text>Name</text><style>.a{fill:red}</style><use href="#a"/><g filter="url(#f)">${MARK}</g>`),
      ),
      GROUND,
    );
    expect(problems).toHaveLength(1);
    expect(problems[0]!.found).toBe('<text>, <style>, <use>, filter');
  });

  it('that grows without bounds is refused before it is drawn', async () => {
    const bomb = `<!DOCTYPE svg [<!ENTITY a "${'b'.repeat(50)}"><!ENTITY c "&a;&a;&a;&a;">]>${svg('<title>&c;&c;</title>')}`;
    expect(await idsOf(bomb)).toEqual(['logo.unreadable']);
    expect(await idsOf(svg('<g>'.repeat(60_000 / 8) + '</g>'.repeat(60_000 / 8)))).toEqual([
      'logo.too-large',
    ]);
    expect(await idsOf(svg('<rect/>'.repeat(5000)))).toEqual(['logo.too-large']);
    expect(await idsOf(svg(`<path d="${'M0 0'.repeat(100_000)}"/>`))).toEqual(['logo.too-large']);
    const doubling = Array.from(
      { length: 30 },
      (_, i) => `<g id="g${i}"><use href="#g${i + 1}"/><use href="#g${i + 1}"/></g>`,
    );
    expect(await idsOf(svg(doubling.join('')))).toEqual(['logo.not-drawn']);
    const clips = Array.from(
      { length: 9 },
      (_, i) => `<clipPath id="c${i}"><rect clip-path="url(#c${i + 1})"/></clipPath>`,
    );
    expect(await idsOf(svg(clips.join('')))).toEqual(['logo.not-drawn']);
  });

  it('that is no picture is told as such', async () => {
    const damaged = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3);
    for (const file of [
      '',
      'GIF89a',
      '<html/>',
      svg(MARK).slice(0, -3),
      svg(MARK).replace(/viewBox="[^"]*"/, ''),
      damaged,
    ]) {
      expect(await idsOf(file)).toEqual(['logo.unreadable']);
    }
    expect(await idsOf(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0))).toEqual(['logo.unreadable']);
  });

  it('that can hardly be seen on the ground is warned of, and still used', async () => {
    const { picture, problems } = await readLogo(
      FILE,
      bytes(svg(MARK.replace('#9a3412', '#f4efe4'))),
      GROUND,
    );
    expect(problems[0]).toMatchObject({ id: 'logo.faint', severity: 'warning', found: '0 % of it' });
    expect(picture).toBeDefined();
  });
});
