/** A logo file as pixels: read within limits, drawn without running or loading anything, written as a new PNG. */
import type { Sharp } from 'sharp';
import { contrastRatio, rgbToHex } from '../colour.ts';
import { CONTENT_FOLDER, type ContentFiles, pathInFolder } from '../content/files.ts';
import { plateColours } from '../house-look.ts';
import { loadSharp } from '../load-sharp.ts';
import type { Problem } from '../problem.ts';
import { logoFaint, logoTooLarge, logoUnreadable } from '../problems/logo.ts';
import type { House, LogoPicture } from '../result/result.ts';
import { LOGO_BOX, rebuildLogoSvg } from './logo-svg.ts';
import { PNG_OPTIONS } from './render.ts';

/** Largest files, bytes, and the longest side of a PNG, px. */
const SVG_LIMIT_BYTES = 256 * 1024;
const PNG_LIMIT_BYTES = 4 * 1024 * 1024;
const PNG_LIMIT_PX = 4096;
const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** WCAG 2.2, 1.4.11, for marks; logos themselves are exempt, so that this warns and never stops. */
const MARK_CONTRAST = 3;
const LEAST_SHARE = 0.1;

export interface ReadLogo {
  /** Absent where it cannot be used, or none is named. */
  readonly picture?: LogoPicture;
  readonly problems: readonly Problem[];
}

/** The logo that the house names, where its file is there; that it is not has been told with the content. */
export async function houseLogo(
  house: Pick<House, 'look'> | undefined,
  files: ContentFiles,
): Promise<ReadLogo> {
  const look = house?.look;
  const file = look?.logo === undefined ? undefined : pathInFolder(CONTENT_FOLDER, look.logo);
  const bytes = file === undefined ? undefined : files.get(file);
  if (file === undefined || bytes === undefined) return { problems: [] };
  return readLogo(file, bytes, plateColours(look).ground);
}

/** Bytes of an SVG or PNG as a picture that fits `LOGO_BOX`; the same bytes give the same picture. */
export async function readLogo(file: string, bytes: Uint8Array, ground: string): Promise<ReadLogo> {
  const read = PNG_SIGNATURE.every((byte, at) => bytes[at] === byte)
    ? await pngToPng(file, bytes)
    : await svgToPng(file, bytes);
  if ('problems' in read) return read;
  const sharp = await loadSharp();
  const { data, info } = await sharp(read.png).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const share = shareSeen(data, ground);
  return {
    picture: { pngBase64: read.png.toString('base64'), widthPx: info.width, heightPx: info.height },
    problems: share < LEAST_SHARE ? [logoFaint(file, ground, Math.floor(share * 100))] : [],
  };
}

type Png = { readonly png: Buffer } | { readonly problems: readonly Problem[] };

async function svgToPng(file: string, bytes: Uint8Array): Promise<Png> {
  if (bytes.length > SVG_LIMIT_BYTES) {
    return { problems: [logoTooLarge(file, `${SVG_LIMIT_BYTES / 1024} KiB of SVG`)] };
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { problems: [logoUnreadable(file, 'neither PNG nor text in UTF-8')] };
  }
  const rebuilt = rebuildLogoSvg(file, text);
  if ('problems' in rebuilt) return rebuilt;
  const sharp = await loadSharp();
  return drawn(file, () => sharp(Buffer.from(rebuilt.svg), { density: 72 }));
}

async function pngToPng(file: string, bytes: Uint8Array): Promise<Png> {
  if (bytes.length > PNG_LIMIT_BYTES) {
    return { problems: [logoTooLarge(file, `${PNG_LIMIT_BYTES / 1024 / 1024} MiB of PNG`)] };
  }
  const sharp = await loadSharp();
  try {
    const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    if (Math.max(width, height) > PNG_LIMIT_PX) {
      return { problems: [logoTooLarge(file, `${PNG_LIMIT_PX} px on its longer side`)] };
    }
  } catch {
    return { problems: [logoUnreadable(file, 'a damaged PNG')] };
  }
  return drawn(file, () =>
    sharp(bytes, { limitInputPixels: PNG_LIMIT_PX ** 2 }).resize(LOGO_BOX.widthPx, LOGO_BOX.heightPx, {
      fit: 'inside',
      withoutEnlargement: true,
    }),
  );
}

async function drawn(file: string, open: () => Sharp): Promise<Png> {
  try {
    return { png: await open().toColourspace('srgb').ensureAlpha().png(PNG_OPTIONS).toBuffer() };
  } catch {
    return { problems: [logoUnreadable(file, 'a picture that cannot be drawn')] };
  }
}

/** Share of the pixels that are more there than not which stand out from the ground. */
function shareSeen(rgba: Uint8Array, ground: string): number {
  let there = 0;
  let seen = 0;
  const known = new Map<string, boolean>();
  for (let at = 0; at < rgba.length; at += 4) {
    if (rgba[at + 3]! < 128) continue;
    there++;
    const colour = rgbToHex([rgba[at]!, rgba[at + 1]!, rgba[at + 2]!]);
    let apart = known.get(colour);
    if (apart === undefined) {
      apart = contrastRatio(colour, ground) >= MARK_CONTRAST;
      known.set(colour, apart);
    }
    if (apart) seen++;
  }
  return there === 0 ? 0 : seen / there;
}
