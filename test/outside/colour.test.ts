import {
  COLOUR_VISION,
  contrastRatio,
  LUMINANCE_SHARES,
  simulateVision,
  srgbToLinear,
} from '../../pipeline/colour.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const contrast = (entry: CheckValue): void =>
  expectWithin(contrastRatio(entry.inputs.fg, entry.inputs.bg), entry);

describeCheckValues('colour', {
  'wcag.000000': contrast,
  'wcag.777777': contrast,
  'wcag.767676': contrast,
  'wcag.595959': contrast,
  'wcag.0000ff': contrast,
  'wcag.ff0000': contrast,
  'wcag.0072B2': contrast,
  'wcag.D55E00': contrast,
  'wcag.009E73': contrast,
  'wcag.CC79A7': contrast,
  'wcag.56B4E9': contrast,
  'wcag.E69F00': contrast,
  'wcag.F0E442': contrast,
  'srgb.lin': entry => expectWithin({ half: srgbToLinear(0.5), 128: srgbToLinear(128 / 255) }, entry),
  luma: entry => expectWithin({ bt709: LUMINANCE_SHARES }, entry),
  'machado.full': entry => expectWithin(COLOUR_VISION, entry),
  'machado.sim': entry =>
    expectWithin(
      Object.fromEntries(
        Object.keys(entry.expected).map(hex => [
          hex,
          (['protan', 'deutan', 'tritan'] as const).map(vision => simulateVision(hex, vision)),
        ]),
      ),
      entry,
    ),
});
