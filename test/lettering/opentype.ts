/**
 * Advances read straight from a TrueType file's tables, as a second opinion on the shaper:
 * `cmap` format 4 and `hmtx` after the OpenType specification 1.9 (ISO/IEC 14496-22).
 */

export interface FontTables {
  readonly unitsPerEm: number;
  /** Advance in font units; undefined where the font has no glyph for the character. */
  advance(character: string): number | undefined;
}

export function readFontTables(ttf: Uint8Array): FontTables {
  const view = new DataView(ttf.buffer, ttf.byteOffset, ttf.byteLength);
  const tables = new Map<string, number>();
  for (let index = 0; index < view.getUint16(4); index++) {
    const at = 12 + index * 16;
    tables.set(String.fromCharCode(...ttf.subarray(at, at + 4)), view.getUint32(at + 8));
  }
  const offset = (tag: string): number => {
    const found = tables.get(tag);
    if (found === undefined) throw new Error(`no ${tag} table`);
    return found;
  };
  const unitsPerEm = view.getUint16(offset('head') + 18);
  const metrics = view.getUint16(offset('hhea') + 34);
  const hmtx = offset('hmtx');
  const cmap = offset('cmap');
  let format4 = -1;
  for (let index = 0; index < view.getUint16(cmap + 2); index++) {
    const subtable = cmap + view.getUint32(cmap + 4 + index * 8 + 4);
    if (view.getUint16(subtable) === 4) format4 = subtable;
  }
  if (format4 < 0) throw new Error('no cmap subtable of format 4');

  const glyphOf = (code: number): number => {
    const twice = view.getUint16(format4 + 6);
    const ends = format4 + 14;
    const starts = ends + twice + 2;
    for (let at = 0; at < twice; at += 2) {
      if (view.getUint16(ends + at) < code) continue;
      const start = view.getUint16(starts + at);
      if (start > code) return 0;
      const delta = view.getInt16(starts + twice + at);
      const rangeAt = starts + 2 * twice + at;
      const range = view.getUint16(rangeAt);
      if (range === 0) return (code + delta) & 0xffff;
      const glyph = view.getUint16(rangeAt + range + 2 * (code - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };

  return {
    unitsPerEm,
    advance(character) {
      const glyph = glyphOf(character.codePointAt(0) ?? 0);
      return glyph === 0 ? undefined : view.getUint16(hmtx + 4 * Math.min(glyph, metrics - 1));
    },
  };
}
