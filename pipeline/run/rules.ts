/** What counts as a run: the constants of the run finder, printed on the methodology page. */
import { kmhToMps } from '../units.ts';

/** Half width of the straight line that tells acceleration while runs are looked for, s. */
export const FINDING_HALF_WIDTH_S = 0.5;

/** A car gaining more than this is accelerating, m/s². */
export const ACCELERATING_MPS2 = 0.5;
/** An interruption shorter than this, such as a gear change, does not end an acceleration, s. */
export const SHIFT_LONGEST_S = 1.5;
/** An interruption that costs more speed than this does end it, m/s. */
export const SHIFT_DEEPEST_MPS = kmhToMps(8);

/** Readings before a start are at rest up to this many standard deviations of one reading. */
export const REST_NOISE_SDS = 5;
/** A gentle rise above that, still under the limit for standing, is followed back for so long, s. */
export const GENTLE_RISE_S = 1;

/** A standing start has passed this speed … */
export const LAUNCH_FROM_MPS = kmhToMps(10);
/** … within this long of leaving rest: slower is creeping, s. */
export const LAUNCH_LATEST_S = 3;
/** From there to this speed it gains at least `LAUNCH_MPS2` on average. */
export const LAUNCH_TO_MPS = kmhToMps(50);
export const LAUNCH_MPS2 = 2;
/** A slow car's start counts from this mean on, if it then holds the acceleration up to `COMPLETE_MPS`, m/s². */
export const LAUNCH_SLOW_MPS2 = 1.1;
/** An attempt lifted early counts from this speed on, if it gained at least `LAUNCH_SHORT_MPS2`. */
export const LAUNCH_SHORT_TO_MPS = kmhToMps(25);
export const LAUNCH_SHORT_MPS2 = 2.5;
/**
 * A gentler start counts from this mean on if it is carried to `LAUNCH_TO_MPS` without losing more than a gear change
 * costs, m/s². A smooth drive-off that never exceeds 1.3 m/s² stays at or below about this on average.
 */
export const SUSTAINED_MPS2 = 1.1;
/** It must already pull so from `LAUNCH_FROM_MPS` to here: rolling along first and pulling later is no start. */
export const SUSTAINED_EARLY_TO_MPS = kmhToMps(30);
/**
 * And it must pull at least this share of the mean of the hardest start in the same log. Where a launch reaches
 * 2 m/s², drive-offs up to 1.33 m/s² stay out; where it reaches 3, every start below `LAUNCH_MPS2` does. Launch
 * methods of one slow car differ by less.
 */
export const SUSTAINED_SHARE = 2 / 3;
/** A standing start that lifts below this speed is aborted. */
export const COMPLETE_MPS = kmhToMps(80);

/** A rolling run begins at least this fast … */
export const ROLLING_FROM_MPS = kmhToMps(35);
/** … and gains at least this much kinetic energy a second and kilogram over a whole rolling split, W/kg. */
export const ROLLING_POWER_WPKG = 18;

/** A car losing more than this is braking, m/s². */
export const BRAKING_MPS2 = 2;
/** Braking runs begin at least this fast, and lose at least `BRAKING_MEAN_MPS2` on average down to rest. */
export const BRAKING_FROM_MPS = kmhToMps(50);
export const BRAKING_MEAN_MPS2 = 3;
/** Brakes released for longer than this end the braking, s. */
export const BRAKING_PAUSE_S = 0.6;
/** Braking that begins within this long of the end of an acceleration belongs to the same run, s. */
export const BRAKING_FOLLOWS_S = 20;
