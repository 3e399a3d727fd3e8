/** The rule a figure is worked out by, of those in `measurement/methods.ts`. */
import type { MethodId } from '../measurement/methods.ts';
import type { MeasureId } from '../result/result.ts';

export function methodOfMeasure(measure: MeasureId): MethodId {
  if (measure === 'peak-acceleration' || measure === 'top-speed') return measure;
  if (measure.startsWith('mfdd-')) return 'mfdd';
  if (measure.startsWith('stop-')) return 'stopping-distance';
  if (/^0-\d+-(kmh|mph)$/.test(measure)) return 'speed-splits';
  return /-(kmh|mph)$/.test(measure) ? 'rolling-splits' : 'distance-splits';
}
