/** `Lettering` by HarfBuzz: text to glyphs, advances and outlines, falling back from file to file. */
import * as harfbuzz from 'harfbuzzjs';
import type { Problem } from '../problem.ts';
import { characterMissing } from '../problems/lettering.ts';
import {
  glyphOutline,
  glyphsToCompactPath,
  glyphsToPath,
  type Outline,
  type PlacedGlyph,
  penAtOrigin,
  SHARED_STEPS,
} from './glyph-path.ts';
import type { FaceId, Lettering, TextStyle, Weight } from './lettering.ts';

/** One font file as TrueType bytes; several of one face and weight are asked in the order given. */
export interface FontFile {
  readonly face: FaceId;
  readonly weight: Weight;
  readonly family: string;
  readonly ttf: Uint8Array;
}

interface Typeface {
  readonly font: harfbuzz.Font;
  readonly unitsPerEm: number;
  readonly family: string;
  /** Begins the names of its glyphs. */
  readonly name: string;
  readonly outlines: Map<number, readonly Outline[]>;
  /** Whether the file has a character, for those asked so far. */
  readonly known: Map<number, boolean>;
}

interface Shaped {
  readonly glyphs: readonly PlacedGlyph[];
  readonly widthEm: number;
  readonly missing: readonly string[];
}

const TABULAR_DIGITS = new harfbuzz.Feature('tnum');
/** Shaped strings held at most; the oldest leave first. */
const CACHE_ENTRIES = 8192;
/** Widths held at most, a face and weight. */
const WIDTH_ENTRIES = 32_768;
/** Outlined lines held at most: foot lines, ticks and names come again on every paper and in every size of picture. */
const OUTLINE_ENTRIES = 4096;
const NO_FONT = 'no font file for face';

/** Width, height and side bearing of the box drawn for a character no file has, em. */
const BOX = { advance: 0.6, left: 0.06, right: 0.54, top: 0.66, line: 0.05 } as const;
const rectangle = (left: number, bottom: number, right: number, top: number): Outline[] => [
  { type: 'M', values: [left, bottom] },
  { type: 'L', values: [right, bottom] },
  { type: 'L', values: [right, top] },
  { type: 'L', values: [left, top] },
  { type: 'Z', values: [] },
];
/** Outer edge one way round and inner edge the other, so that non-zero filling leaves the middle open. */
const BOX_OUTLINE: readonly Outline[] = [
  ...rectangle(BOX.left, 0, BOX.right, BOX.top),
  ...rectangle(BOX.right - BOX.line, BOX.line, BOX.left + BOX.line, BOX.top - BOX.line),
];

const BOX_NAME = 'box';

/** Characters that HarfBuzz spaces or hides itself where the font lacks them (Unicode spaces, joiners). */
const SHAPER_OWN = /^(?:[\u2000-\u200f\u202f\u205f\u2060]|\p{Variation_Selector})$/u;
/** Glyph 0 of every font: the shaper found none (OpenType, `.notdef`). */
const NOTDEF = 0;

/**
 * Lettering from font files. Digits are tabular (`tnum` asked for, harmless where they are so by default),
 * kerning and standard ligatures as the font says. Deterministic: the same text gives the same path.
 */
export function fontsToLettering(files: readonly FontFile[]): Lettering {
  const typefaces = new Map<string, Typeface[]>();
  for (const file of files) {
    const face = new harfbuzz.Face(new harfbuzz.Blob(file.ttf));
    const key = `${file.face} ${file.weight}`;
    const typeface: Typeface = {
      font: new harfbuzz.Font(face),
      unitsPerEm: face.upem,
      family: file.family,
      name: `${file.face}${file.weight}-${typefaces.get(key)?.length ?? 0}`,
      outlines: new Map(),
      known: new Map(),
    };
    typefaces.set(key, [...(typefaces.get(key) ?? []), typeface]);
  }

  const cache = new Map<string, Shaped>();
  const widthsOf = new Map<string, Map<string, number>>();
  const outlined = new Map<string, string>();
  const told = new Map<string, Problem>();

  const typefacesOf = (style: TextStyle): readonly Typeface[] => {
    const found = typefaces.get(`${style.face} ${style.weight}`);
    if (!found) throw new RangeError(`${NO_FONT} ${style.face} ${style.weight}`);
    return found;
  };

  const shapeAnew = (text: string, style: TextStyle): Shaped => {
    const faces = typefacesOf(style);
    const shaped = shapeRuns(splitByTypeface(drawable(text), faces));
    for (const character of shaped.missing) {
      if (!told.has(character)) {
        told.set(character, characterMissing(character, text, faces[0]?.family ?? style.face));
      }
    }
    return shaped;
  };
  const shapeText = (text: string, style: TextStyle): Shaped => {
    const key = `${style.face} ${style.weight} ${text}`;
    let shaped = cache.get(key);
    if (shaped === undefined) {
      shaped = shapeAnew(text, style);
      keep(cache, key, shaped, CACHE_ENTRIES);
    }
    return shaped;
  };
  /** Breaking lines measures many more texts than are drawn: of those the width alone is kept. */
  const widthEm = (text: string, style: TextStyle): number => {
    const own = `${style.face} ${style.weight}`;
    let widths = widthsOf.get(own);
    if (widths === undefined) {
      widths = new Map();
      widthsOf.set(own, widths);
    }
    let width = widths.get(text);
    if (width === undefined) {
      width = (cache.get(`${own} ${text}`) ?? shapeAnew(text, style)).widthEm;
      keep(widths, text, width, WIDTH_ENTRIES);
    }
    return width;
  };

  return {
    width: (text, style) => widthEm(text, style) * style.sizePx,
    compactPath(lines, style) {
      const key = `${style.face} ${style.weight} ${style.sizePx}${lines.map(({ text, x, y }) => `\n${x} ${y} ${text}`).join('')}`;
      const known = outlined.get(key);
      if (known !== undefined) return known;
      const pen = penAtOrigin();
      const path = lines
        .map(({ text, x, y }) => glyphsToCompactPath(shapeText(text, style).glyphs, style.sizePx, x, y, pen))
        .join('');
      keep(outlined, key, path, OUTLINE_ENTRIES);
      return path;
    },
    path: (text, style, x, y) => glyphsToPath(shapeText(text, style).glyphs, style.sizePx, x, y),
    glyphs: (text, style) =>
      shapeText(text, style).glyphs.map(glyph => ({
        name: glyph.name,
        stepsPerEm: SHARED_STEPS,
        x: glyph.xEm * SHARED_STEPS,
        y: 0 - glyph.yEm * SHARED_STEPS,
        outline: () => glyphOutline(glyph),
      })),
    metrics(style) {
      const [first] = typefacesOf(style);
      if (!first) throw new RangeError(`${NO_FONT} ${style.face} ${style.weight}`);
      const extents = first.font.hExtents();
      const scale = style.sizePx / first.unitsPerEm;
      return { ascentPx: extents.ascender * scale, descentPx: -extents.descender * scale };
    },
    missing: (text, style) => shapeText(text, style).missing,
    problems: () => [...told.values()],
  };
}

/** The oldest leaves for a new one where there are as many as are held. */
function keep<T>(cache: Map<string, T>, key: string, value: T, most: number): void {
  if (cache.size >= most) {
    const oldest = cache.keys().next().value;
    if (oldest !== undefined) cache.delete(oldest);
  }
  cache.set(key, value);
}

/** Composed (NFC), and with the Unicode hyphens as the one hyphen these fonts draw. */
function drawable(text: string): string {
  return text.normalize('NFC').replace(/[\u2010\u2011]/g, '-');
}

/** Asking the shaper costs a call into it, so each character is asked for once. */
function hasGlyph({ font, known }: Typeface, codePoint: number): boolean {
  let has = known.get(codePoint);
  if (has === undefined) {
    has = font.nominalGlyph(codePoint) !== undefined;
    known.set(codePoint, has);
  }
  return has;
}

interface TextRun {
  readonly typeface: Typeface | undefined;
  text: string;
}

/** The longest stretches that one file can draw; `typeface` is absent for characters that none can. */
function splitByTypeface(text: string, faces: readonly Typeface[]): readonly TextRun[] {
  const runs: TextRun[] = [];
  for (const character of text) {
    const last = runs.at(-1);
    const typeface = faces.find(face => hasGlyph(face, character.codePointAt(0) ?? 0));
    if (typeface === undefined && SHAPER_OWN.test(character)) {
      if (last) last.text += character;
      else runs.push({ typeface: faces[0], text: character });
    } else if (last && last.typeface === typeface && typeface !== undefined) {
      last.text += character;
    } else {
      runs.push({ typeface, text: character });
    }
  }
  return runs;
}

function shapeRuns(runs: readonly TextRun[]): Shaped {
  const glyphs: PlacedGlyph[] = [];
  const missing: string[] = [];
  let xEm = 0;
  for (const run of runs) {
    if (run.typeface === undefined) {
      missing.push(run.text);
      glyphs.push({ name: BOX_NAME, outline: BOX_OUTLINE, unitsPerEm: 1, xEm, yEm: 0 });
      xEm += BOX.advance;
    } else {
      xEm = shapeRun(run.text, run.typeface, xEm, glyphs, missing);
    }
  }
  return { glyphs, widthEm: xEm, missing: [...new Set(missing)] };
}

/** Adds the run's glyphs from `startEm` on, and what it could not draw; returns where it ends. */
function shapeRun(
  text: string,
  typeface: Typeface,
  startEm: number,
  glyphs: PlacedGlyph[],
  missing: string[],
): number {
  const buffer = new harfbuzz.Buffer();
  buffer.addText(text);
  buffer.setDirection(harfbuzz.Direction.LTR);
  buffer.setScript('Latn');
  buffer.setLanguage('en');
  harfbuzz.shape(typeface.font, buffer, [TABULAR_DIGITS]);
  const { unitsPerEm } = typeface;
  let xEm = startEm;
  // The two lists apart: putting them together glyph by glyph takes longer than the shaping.
  const positions = buffer.getGlyphPositions();
  for (const [index, glyph] of buffer.getGlyphInfos().entries()) {
    const { xAdvance = 0, xOffset = 0, yOffset = 0 } = positions[index] ?? {};
    if (glyph.codepoint === NOTDEF) {
      missing.push(String.fromCodePoint(text.codePointAt(glyph.cluster) ?? 0));
      glyphs.push({ name: BOX_NAME, outline: BOX_OUTLINE, unitsPerEm: 1, xEm, yEm: 0 });
      xEm += BOX.advance;
      continue;
    }
    let outline = typeface.outlines.get(glyph.codepoint);
    if (!outline) {
      outline = typeface.font.glyphToJson(glyph.codepoint);
      typeface.outlines.set(glyph.codepoint, outline);
    }
    glyphs.push({
      name: `${typeface.name}-${glyph.codepoint}`,
      outline,
      unitsPerEm,
      xEm: xEm + xOffset / unitsPerEm,
      yEm: yOffset / unitsPerEm,
    });
    xEm += xAdvance / unitsPerEm;
  }
  return xEm;
}
