/** Pixels of an outlined picture. The same picture gives the same bytes on every run of the same sharp. */
import type { Sharp } from 'sharp';
import { loadSharp } from '../load-sharp.ts';
import { indexedPng } from './indexed-png.ts';

/** Of a picture with too many colours for a table of them: half the time of level 9 for a fifth more bytes. */
const PNG_OPTIONS = { compressionLevel: 7, adaptiveFiltering: false, palette: false } as const;
/** CSS pixels are rasterised at 72 to the inch by the renderer underneath. */
const DENSITY = 72;

type Draw = (svgOutlined: string, scale: number) => Sharp;
async function loadDrawing(): Promise<{ readonly drawn: Draw; readonly rasterise: Draw }> {
  const sharp = await loadSharp();
  const drawn: Draw = (svgOutlined, scale) =>
    sharp(new TextEncoder().encode(svgOutlined), { density: DENSITY * scale });
  return { drawn, rasterise: (svgOutlined, scale) => drawn(svgOutlined, scale).removeAlpha() };
}

/** PNG bytes of an outlined SVG at `scale` device pixels to the px; the same bytes on every run. */
export async function renderFigurePng(svgOutlined: string, scale: number): Promise<Uint8Array> {
  const { drawn, rasterise } = await loadDrawing();
  const { data, info } = await drawn(svgOutlined, scale)
    .ensureAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width: widthPx, height: heightPx } = info;
  const indexed = await indexedPng({ rgba: data, widthPx, heightPx, perInch: DENSITY * scale });
  if (indexed !== undefined) return indexed;
  const png = await rasterise(svgOutlined, scale).png(PNG_OPTIONS).toBuffer();
  return new Uint8Array(png);
}

/** WebP without loss, for publishing systems that want one. */
export async function renderFigureWebp(svgOutlined: string, scale: number): Promise<Uint8Array> {
  const { rasterise } = await loadDrawing();
  return new Uint8Array(await rasterise(svgOutlined, scale).webp({ lossless: true, effort: 4 }).toBuffer());
}

/** AVIF, nearly without loss: full chroma, so that coloured letters stay sharp. */
export async function renderFigureAvif(svgOutlined: string, scale: number): Promise<Uint8Array> {
  const { rasterise } = await loadDrawing();
  const avif = await rasterise(svgOutlined, scale)
    .avif({ quality: 80, effort: 3, chromaSubsampling: '4:4:4' })
    .toBuffer();
  return new Uint8Array(avif);
}
