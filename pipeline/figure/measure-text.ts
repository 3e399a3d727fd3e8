/** The one measure of text, put where vega looks for it. */
import type { Lettering } from '../lettering/lettering.ts';
import { textStyle } from './outline-text.ts';
import { textMetrics } from './vega-parts.ts';

/**
 * Vega measures text through one function for the whole process (vega-scenegraph `textMetrics`): this puts
 * the exact one there. Bounded by the mark's own limit, since vega lays out what is left after the ellipsis.
 */
export function measureTextWith(lettering: Lettering): void {
  textMetrics.width = (item, text) => {
    const width = lettering.width(
      String(text ?? ''),
      textStyle(item.font, item.fontWeight, item.fontSize ?? DEFAULT_SIZE_PX),
    );
    return item.limit !== undefined && item.limit > 0 ? Math.min(item.limit, width) : width;
  };
}

/** Of a text mark that names no size (vega-scenegraph). */
const DEFAULT_SIZE_PX = 11;
