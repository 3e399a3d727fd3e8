/** The overlays there are: one line each, and a missing one fails type checking. */
import { cautionOverlay } from './caution.ts';
import { comparisonOverlay } from './comparison.ts';
import { conditionsOverlay } from './conditions.ts';
import { creditsOverlay } from './credits.ts';
import { directionsOverlay } from './directions.ts';
import type { Overlay, OverlayKind } from './overlay.ts';
import { restatedOverlay } from './restated.ts';
import { resultOverlay } from './result.ts';
import { roadPlanOverlay } from './road-plan.ts';
import { splitsOverlay } from './splits.ts';

/** Every overlay by its kind, in the order a film uses them. */
export const OVERLAYS: Readonly<Record<OverlayKind, Overlay>> = {
  caution: cautionOverlay,
  conditions: conditionsOverlay,
  'road-plan': roadPlanOverlay,
  result: resultOverlay,
  splits: splitsOverlay,
  comparison: comparisonOverlay,
  directions: directionsOverlay,
  restated: restatedOverlay,
  credits: creditsOverlay,
};
