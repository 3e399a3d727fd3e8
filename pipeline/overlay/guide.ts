/** A picture for the editor's top track: where the safe areas end and where plates stand. Not for the finished film. */

import { type Spoken, tagOf } from '../language.ts';
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { COLOUR } from '../look.ts';
import { type Mark, marksToSvg } from './marks.ts';
import type { FrameSize, MadeOverlay } from './overlay.ts';
import { plateArea } from './plate.ts';
import { rectangle, textMark } from './plate-block.ts';
import { type PixelArea, SAFE_STANDARDS, type SafeStandard, safeArea } from './safe-area.ts';
import { guideWords } from './words/plates.ts';

/** File name without size and ending: before every plate. */
export const GUIDE_NAME = '0-guide';

/** Units are px of a picture 1080 px on its shorter side. */
const LINE = 2;
const LABEL = { size: 24, pad: 14, lineHeight: 36, baseline: 32, inset: 24 } as const;

interface Outline {
  readonly area: PixelArea;
  readonly label: string;
  readonly dashUnits: number;
}

/** The guide as SVG: three outlines, light on dark so that they show on any picture, each told with its source. */
export function guideToSvg(
  size: FrameSize,
  lettering: Lettering,
  standard: SafeStandard,
  spoken: Spoken = 'en',
): string {
  const unitPx = Math.min(size.widthPx, size.heightPx) / 1080;
  const { name } = SAFE_STANDARDS[standard];
  const words = guideWords(spoken);
  const says = words.says[standard];
  const graphics = safeArea(size, 'graphics', standard);
  const outlines: readonly Outline[] = [
    { area: safeArea(size, 'action', standard), label: words.whole(name, says.action), dashUnits: 0 },
    { area: graphics, label: words.long(name, says.graphics), dashUnits: 24 },
    {
      area: plateArea(size, standard),
      label: words.short,
      dashUnits: 8,
    },
  ];
  const lines = [
    words.switchOff(size.name),
    ...outlines.map(({ label }) => label),
    ...(isSixteenToNine(size) ? [] : [words.otherShape(name)]),
  ];
  const { widthPx, heightPx } = size;
  const shapes = outlines.map(outline => outlineToSvg(outline, unitPx)).join('\n');
  const roomPx = graphics.rightPx - graphics.leftPx - 2 * LABEL.inset * unitPx;
  const labels = marksToSvg(
    labelMarks(lines, unitPx, roomPx, lettering),
    graphics.leftPx + LABEL.inset * unitPx,
    graphics.topPx + LABEL.inset * unitPx,
    lettering,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}">\n${shapes}\n${labels}\n</svg>\n`;
}

/** The guide of one size as something to render, beside the overlays. */
export function guideOverlay(
  standard: SafeStandard,
  spoken: Spoken = 'en',
): Pick<MadeOverlay, 'name' | 'altText' | 'madeFrom' | 'svg'> {
  return {
    name: GUIDE_NAME,
    altText: guideWords(spoken).alt(SAFE_STANDARDS[standard].name),
    madeFrom: [standard, tagOf(spoken)],
    svg: (size, lettering) => guideToSvg(size, lettering, standard, spoken),
  };
}

const isSixteenToNine = ({ widthPx, heightPx }: FrameSize): boolean => widthPx * 9 === heightPx * 16;

/** A light line inside a dark one; the outer edge of both is the edge of the area, in whole pixels. */
function outlineToSvg({ area, dashUnits }: Outline, unitPx: number): string {
  const lightPx = Math.max(1, Math.round(LINE * unitPx));
  const box = (insetPx: number): string =>
    `x="${area.leftPx + insetPx}" y="${area.topPx + insetPx}" width="${area.rightPx - area.leftPx - 2 * insetPx}" height="${area.bottomPx - area.topPx - 2 * insetPx}" fill="none"`;
  const dash = dashUnits === 0 ? '' : ` stroke-dasharray="${dashUnits * unitPx}"`;
  return [
    `<rect ${box(lightPx)} stroke="${COLOUR.ink}" stroke-width="${2 * lightPx}"/>`,
    `<rect ${box(lightPx)} stroke="${COLOUR.paper}" stroke-width="${lightPx}"${dash}/>`,
  ].join('\n');
}

/** Lines of text on the plates' dark ground, all set smaller where the longest is wider than the room. */
function labelMarks(
  words: readonly string[],
  unitPx: number,
  roomPx: number,
  lettering: Lettering,
): readonly Mark[] {
  const usual: TextStyle = { face: 'sans', weight: 600, sizePx: LABEL.size * unitPx };
  const widestPx = Math.max(...words.map(word => lettering.width(word, usual)));
  const scale = Math.min(1, roomPx / (widestPx + 2 * LABEL.pad * unitPx));
  const stepPx = unitPx * scale;
  const style = { ...usual, sizePx: usual.sizePx * scale };
  const heightPx = (words.length * LABEL.lineHeight + LABEL.pad) * stepPx;
  return [
    rectangle(0, 0, widestPx * scale + 2 * LABEL.pad * stepPx, heightPx, 'slate'),
    ...words.map((word, index) =>
      textMark(
        word,
        style,
        LABEL.pad * stepPx,
        (LABEL.baseline + index * LABEL.lineHeight) * stepPx,
        'onSlate',
      ),
    ),
  ];
}
