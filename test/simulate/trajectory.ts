/**
 * The true path of a simulated car: nodes in time with speed linear between them, so that distance is
 * exactly quadratic between nodes and every crossing has a closed form.
 */

export interface Crossing {
  readonly timeS: number;
  readonly distanceM: number;
  readonly speedMps: number;
}

/** Most single runs end within so many milliseconds, and the long ones within twice as many. */
const FIRST_CAPACITY = 1 << 15;
/** And most days within so many: a drive longer than one run goes there at once, with nothing copied on the way. */
const DAY_CAPACITY = 1 << 18;

/** Grows as it is driven; speeds are magnitudes, course is the way the car moves over ground, degrees. */
export class Trajectory {
  count = 0;
  timeS = new Float64Array(FIRST_CAPACITY);
  speedMps = new Float64Array(FIRST_CAPACITY);
  distanceM = new Float64Array(FIRST_CAPACITY);
  eastM = new Float64Array(FIRST_CAPACITY);
  northM = new Float64Array(FIRST_CAPACITY);
  courseDeg = new Float64Array(FIRST_CAPACITY);

  /** Adds a node; its distance, m, follows from speed by the trapezoid. */
  push(timeS: number, speedMps: number, eastM: number, northM: number, courseDeg: number): number {
    if (this.count === this.timeS.length) this.grow();
    const i = this.count;
    const before = i - 1;
    this.timeS[i] = timeS;
    this.speedMps[i] = speedMps;
    this.eastM[i] = eastM;
    this.northM[i] = northM;
    this.courseDeg[i] = courseDeg;
    const distanceM =
      i === 0
        ? 0
        : this.distanceM[before]! + ((speedMps + this.speedMps[before]!) / 2) * (timeS - this.timeS[before]!);
    this.distanceM[i] = distanceM;
    this.count = i + 1;
    return distanceM;
  }

  private grow(): void {
    const longer = (from: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> => {
      const isRun = from.length === FIRST_CAPACITY;
      const to = new Float64Array(isRun ? from.length * 2 : Math.max(from.length * 2, DAY_CAPACITY));
      to.set(from);
      return to;
    };
    this.timeS = longer(this.timeS);
    this.speedMps = longer(this.speedMps);
    this.distanceM = longer(this.distanceM);
    this.eastM = longer(this.eastM);
    this.northM = longer(this.northM);
    this.courseDeg = longer(this.courseDeg);
  }

  /** Last node at or before a time; `from` is a node known to be no later. */
  nodeAt(timeS: number, from = 0): number {
    let low = from;
    let high = this.count - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.timeS[middle]! <= timeS) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** Speed at a time, m/s; the ends hold. */
  speedAt(timeS: number): number {
    const i = this.nodeAt(timeS);
    if (i >= this.count - 1) return this.speedMps[i]!;
    return this.speedMps[i]! + this.slope(i) * Math.max(0, timeS - this.timeS[i]!);
  }

  /** Distance since the first node at a time, m. */
  distanceAt(timeS: number): number {
    const i = this.nodeAt(timeS);
    const past = Math.max(0, timeS - this.timeS[i]!);
    const slope = i >= this.count - 1 ? 0 : this.slope(i);
    return this.distanceM[i]! + this.speedMps[i]! * past + (slope * past * past) / 2;
  }

  /** First time speed rises to a value between two nodes. */
  risingTo(speedMps: number, fromNode: number, toNode: number): Crossing | undefined {
    for (let i = fromNode; i < toNode; i++) {
      if (this.speedMps[i]! < speedMps && this.speedMps[i + 1]! >= speedMps)
        return this.crossing(i, speedMps);
    }
    return undefined;
  }

  /** Last time speed falls to a value between two nodes. */
  fallingTo(speedMps: number, fromNode: number, toNode: number): Crossing | undefined {
    for (let i = toNode - 1; i >= fromNode; i--) {
      if (this.speedMps[i]! > speedMps && this.speedMps[i + 1]! <= speedMps)
        return this.crossing(i, speedMps);
    }
    return undefined;
  }

  /** Time the car has covered a distance since `fromNode`. */
  covering(distanceM: number, fromNode: number, toNode: number): Crossing | undefined {
    const target = this.distanceM[fromNode]! + distanceM;
    if (this.distanceM[toNode]! < target) return undefined;
    let low = fromNode;
    let high = toNode;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.distanceM[middle]! < target) low = middle;
      else high = middle;
    }
    const speed = this.speedMps[low]!;
    const slope = this.slope(low);
    const left = target - this.distanceM[low]!;
    // The root written so that it neither cancels nor divides by a vanishing acceleration.
    const past = (2 * left) / (speed + Math.sqrt(Math.max(0, speed * speed + 2 * slope * left)));
    return { timeS: this.timeS[low]! + past, distanceM: target, speedMps: speed + slope * past };
  }

  private slope(i: number): number {
    const step = this.timeS[i + 1]! - this.timeS[i]!;
    return step > 0 ? (this.speedMps[i + 1]! - this.speedMps[i]!) / step : 0;
  }

  private crossing(i: number, speedMps: number): Crossing {
    const slope = this.slope(i);
    const past = slope === 0 ? 0 : (speedMps - this.speedMps[i]!) / slope;
    return {
      timeS: this.timeS[i]! + past,
      distanceM: this.distanceM[i]! + this.speedMps[i]! * past + (slope * past * past) / 2,
      speedMps,
    };
  }
}
