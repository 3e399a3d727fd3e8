/**
 * Drives a simulated car through a script: full starts, pulls and braking by integration of the forces in
 * steps of 1 ms (midpoint rule), everything gentle by closed form.
 */
import type { Launch, SimulatedCar } from './cars.ts';
import { Trajectory } from './trajectory.ts';

/** Air and wind; wind as weather services give it, where it comes from. */
export interface Surroundings {
  readonly densityKgm3: number;
  readonly windMps: number;
  readonly windFromDeg: number;
  /** Share of dry grip; 1 dry, about 0.65 wet. */
  readonly grip: number;
}

export interface SimulatedRoad {
  /** The first direction; the line is at 0 m along it. */
  readonly headingDeg: number;
  /** Pairs of distance along and height, m; level where absent. */
  readonly profile?: readonly (readonly [number, number])[];
}

export const STILL_DRY_AIR: Surroundings = { densityKgm3: 1.2, windMps: 0, windFromDeg: 0, grip: 1 };

export type Manoeuvre =
  | { readonly kind: 'stand'; readonly forS: number }
  /** Stands until a time of the drive; a car that is late cannot. */
  | { readonly kind: 'stand-until'; readonly atS: number }
  | { readonly kind: 'weather'; readonly surroundings: Surroundings }
  /** From rest, as hard as the launch allows, to a speed or a distance from the start. */
  | {
      readonly kind: 'standing-start';
      readonly launch: Launch;
      readonly toMps?: number;
      readonly toM?: number;
      /** The driver gave it up: ends at `toMps` and does not count as complete. */
      readonly aborted?: boolean;
      /** Share of power on this attempt: heat, battery, the driver; 1 where absent. */
      readonly power?: number;
      readonly label?: string;
    }
  /** Full power from the present speed. */
  | {
      readonly kind: 'pull';
      readonly toMps: number;
      readonly power?: number;
      readonly label?: string;
    }
  /** Off the pedal; wheels that turn add a share of the mass, 0 where absent. */
  | { readonly kind: 'coast'; readonly forS: number; readonly wheelShare?: number }
  /** Full braking to rest; another time for the force to rise than the car's own, and eased below a speed. */
  | {
      readonly kind: 'brake';
      readonly effort?: number;
      readonly label?: string;
      readonly buildUpS?: number;
      readonly easesMps?: number;
    }
  /** Gentle change of speed. */
  | { readonly kind: 'glide'; readonly toMps: number; readonly overS: number }
  | { readonly kind: 'cruise'; readonly forS: number }
  /** From rest to rest, gently, to a place along the road; the car must face that way. */
  | { readonly kind: 'travel-to'; readonly alongM: number; readonly cruiseMps: number }
  | { readonly kind: 'three-point-turn' };

/** A run as driven, by nodes of the trajectory. */
export interface DrivenRun {
  readonly kind: 'standing-start' | 'rolling' | 'braking';
  readonly aborted: boolean;
  readonly launchId?: string;
  readonly label?: string;
  /** Standing starts: the node at which the car leaves rest. */
  readonly beginNode: number;
  readonly endNode: number;
  /** Where the brake is put on, where it is. */
  readonly brakeNode?: number;
  readonly courseDeg: number;
  /** Upshifts in order of time: the instant at which the force begins to fall, s of the drive. */
  readonly shifts: readonly { readonly atS: number; readonly speedMps: number }[];
}

export interface Drive {
  readonly trajectory: Trajectory;
  readonly runs: readonly DrivenRun[];
}

const GRAVITY_MPS2 = 9.80665;
const STEP_S = 0.001;
const GENTLE_STEP_S = 0.02;
/** Gentle driving, m/s². */
const GENTLE_MPS2 = 1.3;
/** Force moves between its levels at a shift in this time, s. */
const SHIFT_EDGE_S = 0.04;
const LONGEST_PULL_S = 120;

const toRad = (deg: number): number => (deg * Math.PI) / 180;
const smooth = (x: number): number => (x <= 0 ? 0 : x >= 1 ? 1 : x * x * (3 - 2 * x));

/** Rise of the road by place; the first and the last stretch go on beyond the ends. */
function slopesOf({ profile }: SimulatedRoad): (alongM: number) => number {
  if (!profile || profile.length < 2) return () => 0;
  const ends = profile.slice(1, -1).map(([toM]) => toM);
  const slopes = profile.slice(1).map(([toM, toHeight], i) => {
    const [fromM, fromHeight] = profile[i]!;
    return (toHeight - fromHeight) / (toM - fromM);
  });
  return alongM => {
    let i = 0;
    while (i < ends.length && alongM > ends[i]!) i += 1;
    return slopes[i]!;
  };
}

/** Share of the full force at a share of the ramp. */
const RISES: Readonly<Record<Launch['shape'], (x: number) => number>> = {
  linear: x => x,
  smooth,
  convex: x => x ** 1.7,
  concave: x => (1 - Math.exp(-3 * x)) / (1 - Math.exp(-3)),
};

/** Shares of the full force and of grip by the seconds since the driver asks for it. */
function launchShares({ rampS, shape, bite = 0, dip }: Launch): {
  readonly rise: (s: number) => number;
  readonly grip: (s: number) => number;
} {
  const riseBy = RISES[shape];
  const whole = bite + (1 - bite) * riseBy(1);
  return {
    rise: s => {
      const x = rampS <= 0 ? 1 : s / rampS;
      return x >= 1 ? whole : bite + (1 - bite) * riseBy(Math.max(0, x));
    },
    grip: s => {
      if (!dip || s <= dip.atS || s >= dip.atS + dip.forS) return 1;
      const place = (s - dip.atS) / dip.forS;
      return 1 - dip.depth * smooth(place < 0.5 ? place * 2 : 2 - place * 2);
    },
  };
}

/** Drives the script from rest at the line, facing the first direction. */
export function drive(
  car: SimulatedCar,
  road: SimulatedRoad,
  surroundings: Surroundings,
  script: readonly Manoeuvre[],
): Drive {
  const path = new Trajectory();
  const runs: DrivenRun[] = [];
  const roadEast = Math.sin(toRad(road.headingDeg));
  const roadNorth = Math.cos(toRad(road.headingDeg));
  let air = surroundings;
  let timeS = 0;
  let speed = 0;
  let eastM = 0;
  let northM = 0;
  /** The way the nose points. */
  let headingDeg = road.headingDeg;
  let open: { -readonly [K in keyof DrivenRun]: DrivenRun[K] } | undefined;

  const along = (): number => eastM * roadEast + northM * roadNorth;
  const facesDirection = (): number => {
    const turned = (((headingDeg - road.headingDeg) % 360) + 360) % 360;
    return turned > 90 && turned < 270 ? -1 : 1;
  };
  const course = (): number => ((headingDeg % 360) + 360) % 360;
  const headwind = (): number => air.windMps * Math.cos(toRad(air.windFromDeg - headingDeg));
  const lastNode = (): number => path.count - 1;
  const close = (): void => {
    if (open) runs.push({ ...open, endNode: lastNode() });
    open = undefined;
  };
  /** One node further; the car moves the way it points, or backwards. */
  const move = (
    stepS: number,
    nextSpeed: number,
    eastShare: number,
    northShare: number,
    courseDeg: number,
  ) => {
    const stepM = ((speed + nextSpeed) / 2) * stepS;
    timeS += stepS;
    speed = nextSpeed;
    eastM += stepM * eastShare;
    northM += stepM * northShare;
    path.push(timeS, speed, eastM, northM, courseDeg);
  };

  /**
   * Integrates speed under a net acceleration until `done`, or until the car is at rest where it may rest;
   * `net` may depend on time since the beginning.
   */
  const integrate = (
    mayRest: boolean,
    net: (sinceS: number, speedMps: number, alongM: number) => number,
    done: (sinceS: number, coveredM: number, speedMps: number) => boolean,
  ): void => {
    const eastShare = Math.sin(toRad(headingDeg));
    const northShare = Math.cos(toRad(headingDeg));
    const begunS = timeS;
    const begunM = path.distanceM[lastNode()]!;
    const courseDeg = course();
    // What moves is held in the loop itself: written where other functions see it, each number is an object of its own.
    let [nowS, mps, east, north, reachedM] = [timeS, speed, eastM, northM, begunM];
    for (let resting = false; !resting; ) {
      const sinceS = nowS - begunS;
      if (done(sinceS, reachedM - begunM, mps)) break;
      const place = east * roadEast + north * roadNorth;
      const first = net(sinceS, mps, place);
      const middle = net(sinceS + STEP_S / 2, Math.max(0, mps + (first * STEP_S) / 2), place);
      let next = mps + middle * STEP_S;
      let stepS = STEP_S;
      if (!(next > 0)) {
        if (!mayRest) throw new Error(`The car ${car.id} stalls at ${place.toFixed(1)} m.`);
        if (!(mps > 0)) break;
        // The car comes to rest inside this step.
        stepS = Math.min(STEP_S, mps / -middle);
        next = 0;
        resting = true;
      }
      const stepM = ((mps + next) / 2) * stepS;
      nowS += stepS;
      mps = next;
      east += stepM * eastShare;
      north += stepM * northShare;
      reachedM = path.push(nowS, mps, east, north, courseDeg);
    }
    timeS = nowS;
    speed = mps;
    eastM = east;
    northM = north;
  };

  const slopeAt = slopesOf(road);
  const resistance = (speedMps: number, wind: number, direction: number, alongM: number): number => {
    const through = speedMps + wind;
    return (
      car.massKg * GRAVITY_MPS2 * (car.rollingResistance + slopeAt(alongM) * direction) +
      (air.densityKgm3 / 2) * car.dragAreaM2 * through * Math.abs(through)
    );
  };

  /** Wheel force with gears and shifts; keeps its own gear, chosen for the speed it begins at. */
  const powertrain = (
    power: number,
    shifts: { atS: number; speedMps: number }[],
  ): { readonly forceN: (sinceS: number, speedMps: number) => number; readonly massKg: () => number } => {
    const shiftMps = car.ratios.map(ratio => ((car.shiftRpm * Math.PI) / 30 / ratio) * car.wheelRadiusM);
    let gear = shiftMps.findIndex(limit => speed < limit * 0.98);
    if (gear < 0) gear = car.ratios.length - 1;
    let shiftedAtS = Number.NEGATIVE_INFINITY;
    const begunS = timeS;
    const masses = car.ratios.map(ratio => car.massKg * (1 + car.rotatingShare(ratio)));
    // The converter's share comes last of the factors, so that without one the product is the same to the last bit.
    const torques = car.ratios.map(ratio => car.torqueNm * ratio * car.efficiency);
    const pullW = car.powerW * car.efficiency;
    const forceN = (sinceS: number, speedMps: number): number => {
      if (speedMps >= shiftMps[gear]! && gear < car.ratios.length - 1) {
        gear += 1;
        shiftedAtS = sinceS;
        shifts.push({ atS: begunS + sinceS, speedMps });
      }
      const converter =
        car.converter && gear === 0
          ? Math.max(
              1,
              car.converter.atRest - (car.converter.atRest - 1) * (speedMps / car.converter.lockMps),
            )
          : 1;
      const pushN = Math.min(
        (torques[gear]! * converter) / car.wheelRadiusM,
        pullW / Math.max(speedMps, 0.01),
      );
      const intoShift = sinceS - shiftedAtS;
      if (intoShift >= car.shiftGapS) return pushN * power;
      const edge = Math.min(
        1,
        intoShift / SHIFT_EDGE_S,
        Math.max(0, (car.shiftGapS - intoShift) / SHIFT_EDGE_S),
      );
      return pushN * (1 - (1 - car.shiftLeft) * edge) * power;
    };
    return { forceN, massKg: () => masses[gear]! };
  };

  /** What the engine can do with all that turns, or what the tyres can do with the car alone: the lesser. */
  const acceleration = (forceN: number, gripShare: number, massKg: number, resistanceN: number): number =>
    Math.min(
      (forceN - resistanceN) / massKg,
      (car.tractionN * air.grip * gripShare - resistanceN) / car.massKg,
    );

  const fullStart = (step: Extract<Manoeuvre, { kind: 'standing-start' }>): void => {
    close();
    const wind = headwind();
    const direction = facesDirection();
    const shifts: { atS: number; speedMps: number }[] = [];
    const wheels = powertrain(step.power ?? 1, shifts);
    const shares = launchShares(step.launch);
    const net = (sinceS: number, speedMps: number, alongM: number): number => {
      const forceN = wheels.forceN(sinceS, speedMps);
      const grip = shares.grip(sinceS);
      return acceleration(
        forceN * (shares.rise(sinceS) * grip),
        grip,
        wheels.massKg(),
        resistance(speedMps, wind, direction, alongM),
      );
    };
    // The brake or the driver holds the car until the wheels push harder than what resists.
    let waitedS = 0;
    if (net(0, 0, along()) <= 0) {
      let low = 0;
      let high = STEP_S;
      while (net(high, 0, along()) <= 0) {
        low = high;
        high += STEP_S;
        if (high > 10) throw new Error(`The car ${car.id} cannot start with launch ${step.launch.id}.`);
      }
      for (let i = 0; i < 40; i++) {
        const middle = (low + high) / 2;
        if (net(middle, 0, along()) <= 0) low = middle;
        else high = middle;
      }
      waitedS = high;
      move(waitedS, 0, 0, 0, course());
    }
    open = {
      kind: 'standing-start',
      aborted: step.aborted ?? false,
      launchId: step.launch.id,
      ...(step.label === undefined ? {} : { label: step.label }),
      beginNode: lastNode(),
      endNode: 0,
      courseDeg: course(),
      shifts,
    };
    integrate(
      false,
      (sinceS, speedMps, alongM) => net(sinceS + waitedS, speedMps, alongM),
      (sinceS, coveredM, speedMps) =>
        (step.toMps !== undefined && speedMps >= step.toMps) ||
        (step.toM !== undefined && coveredM >= step.toM) ||
        sinceS > LONGEST_PULL_S,
    );
  };

  const pull = (step: Extract<Manoeuvre, { kind: 'pull' }>): void => {
    close();
    const wind = headwind();
    const direction = facesDirection();
    const shifts: { atS: number; speedMps: number }[] = [];
    const wheels = powertrain(step.power ?? 1, shifts);
    open = {
      kind: 'rolling',
      aborted: false,
      ...(step.label === undefined ? {} : { label: step.label }),
      beginNode: lastNode(),
      endNode: 0,
      courseDeg: course(),
      shifts,
    };
    integrate(
      false,
      (sinceS, speedMps, alongM) => {
        const forceN = wheels.forceN(sinceS, speedMps);
        return acceleration(
          forceN * smooth(sinceS / 0.35),
          1,
          wheels.massKg(),
          resistance(speedMps, wind, direction, alongM),
        );
      },
      (sinceS, _, speedMps) => speedMps >= step.toMps || sinceS > LONGEST_PULL_S,
    );
  };

  const coast = (forS: number, wheelShare = 0): void => {
    const wind = headwind();
    const direction = facesDirection();
    integrate(
      true,
      (_, speedMps, alongM) =>
        -resistance(speedMps, wind, direction, alongM) / (car.massKg * (1 + wheelShare)),
      sinceS => sinceS >= forS,
    );
  };

  const brake = (step: Extract<Manoeuvre, { kind: 'brake' }>): void => {
    if (!open)
      open = {
        kind: 'braking',
        aborted: false,
        ...(step.label === undefined ? {} : { label: step.label }),
        beginNode: lastNode(),
        endNode: 0,
        courseDeg: course(),
        shifts: [],
      };
    open.brakeNode = lastNode();
    const wind = headwind();
    const direction = facesDirection();
    const full = car.brakeMps2 * air.grip * (step.effort ?? 1);
    const { buildUpS = car.brakeBuildUpS, easesMps = 0 } = step;
    // Eased, the force falls with the speed to a third of itself.
    const eased = (speedMps: number): number =>
      easesMps <= 0 ? 1 : Math.min(1, Math.max(1 / 3, speedMps / easesMps));
    integrate(
      true,
      (sinceS, speedMps, alongM) =>
        -full * eased(speedMps) * (buildUpS <= 0 ? 1 : Math.min(1, sinceS / buildUpS)) -
        resistance(speedMps, wind, direction, alongM) / car.massKg,
      (_, __, speedMps) => speedMps === 0,
    );
    close();
  };

  /** A smooth change of speed in closed form; covers the mean of both speeds times its duration. */
  const glide = (toMps: number, overS: number, turnDeg = 0, reverse = false): void => {
    const steps = Math.max(1, Math.ceil(overS / GENTLE_STEP_S));
    const fromMps = speed;
    const fromHeading = headingDeg;
    let [way, eastShare, northShare] = [Number.NaN, 0, 0];
    for (let i = 1; i <= steps; i++) {
      headingDeg = fromHeading + (turnDeg * i) / steps;
      const before = way;
      way = reverse ? headingDeg + 180 : headingDeg;
      if (way !== before) [eastShare, northShare] = [Math.sin(toRad(way)), Math.cos(toRad(way))];
      const next = i === steps ? toMps : fromMps + (toMps - fromMps) * smooth(i / steps);
      move(overS / steps, next, eastShare, northShare, ((way % 360) + 360) % 360);
    }
  };

  const travel = (distanceM: number, cruiseMps: number, turnDeg = 0, reverse = false): void => {
    // A smooth rise has its steepest place at one and a half times its mean.
    const rampS = Math.max(0.8, (1.5 * cruiseMps) / GENTLE_MPS2);
    const top = distanceM < cruiseMps * rampS ? Math.sqrt((distanceM * GENTLE_MPS2) / 1.5) : cruiseMps;
    const eachS = distanceM < cruiseMps * rampS ? distanceM / top : rampS;
    const holdS = Math.max(0, distanceM / top - eachS);
    glide(top, eachS, turnDeg / 3, reverse);
    if (holdS > 0) glide(top, holdS, turnDeg / 3, reverse);
    glide(0, eachS, holdS > 0 ? turnDeg / 3 : (2 * turnDeg) / 3, reverse);
  };

  path.push(0, 0, 0, 0, course());
  for (const step of script) {
    switch (step.kind) {
      case 'stand':
        close();
        if (speed !== 0) throw new Error('A car that moves cannot stand: end the motion first.');
        move(step.forS, 0, 0, 0, course());
        break;
      case 'stand-until':
        close();
        if (speed !== 0 || timeS > step.atS)
          throw new Error(`The car is not at rest in time for ${step.atS} s: it is ${timeS.toFixed(1)} s.`);
        move(step.atS - timeS, 0, 0, 0, course());
        break;
      case 'weather':
        air = step.surroundings;
        break;
      case 'standing-start':
        if (speed !== 0) throw new Error('A standing start begins at rest.');
        fullStart(step);
        break;
      case 'pull':
        pull(step);
        break;
      case 'coast':
        coast(step.forS, step.wheelShare);
        break;
      case 'brake':
        brake(step);
        break;
      case 'glide':
        close();
        glide(step.toMps, step.overS);
        break;
      case 'cruise':
        close();
        glide(speed, step.forS);
        break;
      case 'travel-to':
        close();
        if ((step.alongM - along()) * facesDirection() < -3)
          throw new Error(`The car at ${along().toFixed(0)} m faces away from ${step.alongM} m.`);
        travel(Math.max(0.5, Math.abs(step.alongM - along())), step.cruiseMps);
        break;
      case 'three-point-turn':
        close();
        travel(9, 2.2, 70);
        move(1.2, 0, 0, 0, path.courseDeg[lastNode()]!);
        travel(6, 1.5, 60, true);
        move(1.4, 0, 0, 0, path.courseDeg[lastNode()]!);
        travel(8, 2.5, 50);
        break;
    }
  }
  close();
  return { trajectory: path, runs };
}
