/** Colours as numbers: contrast, what people with a colour-vision deficiency see of them, how far apart they are. */

export type Rgb = readonly [red: number, green: number, blue: number];

/** 8-bit values of `#rrggbb`. @throws RangeError for any other form. */
export function hexToRgb(hex: string): Rgb {
  const match = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(hex);
  if (!match) throw new RangeError(`A colour is written #rrggbb, not ${hex}`);
  const [, r = '', g = '', b = ''] = match;
  return [Number.parseInt(r, 16), Number.parseInt(g, 16), Number.parseInt(b, 16)];
}

/** `#rrggbb` of 8-bit values. */
export function rgbToHex(rgb: Rgb): string {
  return `#${rgb.map(value => Math.round(value).toString(16).padStart(2, '0')).join('')}`;
}

/** Linear light of an sRGB value, both 0 to 1 (IEC 61966-2-1). */
export function srgbToLinear(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

/** sRGB value of linear light, both 0 to 1; light outside is brought to the nearest end (IEC 61966-2-1). */
export function linearToSrgb(light: number): number {
  const within = Math.min(1, Math.max(0, light));
  return within <= 0.0031308 ? within * 12.92 : 1.055 * within ** (1 / 2.4) - 0.055;
}

const hexToLinear = (hex: string): Rgb => {
  const [r, g, b] = hexToRgb(hex);
  return [srgbToLinear(r / 255), srgbToLinear(g / 255), srgbToLinear(b / 255)];
};

/** Shares of red, green and blue light in luminance, ITU-R BT.709. */
export const LUMINANCE_SHARES: Rgb = [0.2126, 0.7152, 0.0722];

const weigh = ([r, g, b]: Rgb, [wr, wg, wb]: Rgb): number => r * wr + g * wg + b * wb;

/** Relative luminance of a colour, 0 to 1 (WCAG 2.2). */
export function relativeLuminance(hex: string): number {
  return weigh(hexToLinear(hex), LUMINANCE_SHARES);
}

/** Contrast ratio of two colours, 1 to 21, in either order (WCAG 2.2). */
export function contrastRatio(first: string, second: string): number {
  const a = relativeLuminance(first);
  const b = relativeLuminance(second);
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

export type ColourVision = 'protan' | 'deutan' | 'tritan';

/** What is left of linear light when one kind of cone is missing: Machado, Oliveira and Fernandes 2009, severity 1. */
export const COLOUR_VISION: Readonly<Record<ColourVision, readonly [Rgb, Rgb, Rgb]>> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** A colour as someone with this vision sees it, about. */
export function simulateVision(hex: string, vision: ColourVision): string {
  const light = hexToLinear(hex);
  const [r, g, b] = COLOUR_VISION[vision];
  return rgbToHex([
    linearToSrgb(weigh(light, r)) * 255,
    linearToSrgb(weigh(light, g)) * 255,
    linearToSrgb(weigh(light, b)) * 255,
  ]);
}

/** White of sRGB, CIE XYZ, D65. */
const WHITE: Rgb = [0.95047, 1, 1.08883];

/** CIE L*a*b* of a colour, D65 (CIE 15; matrix of IEC 61966-2-1). */
export function hexToLab(hex: string): Rgb {
  const light = hexToLinear(hex);
  const curve = (ratio: number): number =>
    ratio > (6 / 29) ** 3 ? Math.cbrt(ratio) : (ratio * (29 / 6) ** 2) / 3 + 4 / 29;
  const x = curve(weigh(light, [0.4124564, 0.3575761, 0.1804375]) / WHITE[0]);
  const y = curve(weigh(light, [0.2126729, 0.7151522, 0.072175]) / WHITE[1]);
  const z = curve(weigh(light, [0.0193339, 0.119192, 0.9503041]) / WHITE[2]);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Difference of two colours, CIE 1976 ΔE*ab: about 2.3 is just noticed side by side (Mahy et al. 1994). */
export function colourDifference(first: string, second: string): number {
  const [l1, a1, b1] = hexToLab(first);
  const [l2, a2, b2] = hexToLab(second);
  return Math.hypot(l1 - l2, a1 - a2, b1 - b2);
}
