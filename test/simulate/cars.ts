/** Four invented kinds of car, as far as a simulation of straight-line motion needs them. */

/** How the driving force rises when the driver starts, and what disturbs it. */
export interface Launch {
  readonly id: string;
  /** From no force to full force, s; 0 is a step. */
  readonly rampS: number;
  /** `convex` begins slowly (power 1.7), `concave` quickly (exponential approach). */
  readonly shape: 'linear' | 'smooth' | 'convex' | 'concave';
  /** This share of it at once, as a clutch bites; the rest in the ramp. */
  readonly bite?: number;
  /** Wheelspin, or the engine giving up speed as the clutch bites: force falls by `depth` and comes back. */
  readonly dip?: { readonly atS: number; readonly forS: number; readonly depth: number };
}

export interface SimulatedCar {
  readonly id: string;
  /** As tested, with people and gear. */
  readonly massKg: number;
  /** Rated power of engine or motor, W. */
  readonly powerW: number;
  readonly torqueNm: number;
  /** Share of rated power and torque that reaches the wheels. */
  readonly efficiency: number;
  readonly wheelRadiusM: number;
  /** Overall ratios, first gear first; one only where there is no gearbox. */
  readonly ratios: readonly number[];
  /** Engine speed of the upshift, rpm. */
  readonly shiftRpm: number;
  readonly shiftGapS: number;
  /** Share of the force that is left during the shift. */
  readonly shiftLeft: number;
  /** Torque converter: multiplication at rest, falling to one at this speed. */
  readonly converter?: { readonly atRest: number; readonly lockMps: number };
  /** Greatest force the driven tyres take on a dry road, N. */
  readonly tractionN: number;
  readonly dragAreaM2: number;
  readonly rollingResistance: number;
  /** Mass that turns, as a share of the car's mass, in one gear. */
  readonly rotatingShare: (ratio: number) => number;
  /** Full braking on a dry road by the tyres alone, m/s². */
  readonly brakeMps2: number;
  /** Brake force rises linearly to full in this time, s. */
  readonly brakeBuildUpS: number;
  readonly launches: readonly Launch[];
}

/** 1.04 + 0.0025 i² less one: handbook fit for cars with an engine (Wong; Gillespie; from memory). */
const engineAndWheels = (ratio: number): number => 0.04 + 0.0025 * ratio * ratio;
const GRAVITY_MPS2 = 9.80665;
const traction = (massKg: number, axleShare: number, friction: number): number =>
  massKg * GRAVITY_MPS2 * axleShare * friction;

export const ELECTRIC_HATCH: SimulatedCar = {
  id: 'electric-hatch',
  massKg: 1735,
  powerW: 150_000,
  torqueNm: 310,
  efficiency: 0.9,
  wheelRadiusM: 0.33,
  ratios: [9.6],
  shiftRpm: 16_500,
  shiftGapS: 0,
  shiftLeft: 1,
  tractionN: traction(1735, 0.54, 0.9),
  dragAreaM2: 0.66,
  rollingResistance: 0.0115,
  rotatingShare: () => 0.06,
  brakeMps2: 9.2,
  brakeBuildUpS: 0.18,
  launches: [
    { id: 'brake-hold', rampS: 0.16, shape: 'linear' },
    { id: 'from-rest', rampS: 0.42, shape: 'smooth' },
  ],
};

export const AUTOMATIC_ESTATE: SimulatedCar = {
  id: 'automatic-estate',
  massKg: 1680,
  powerW: 118_000,
  torqueNm: 240,
  efficiency: 0.86,
  wheelRadiusM: 0.32,
  ratios: [13.1, 8.2, 5.6, 4.2, 3.2, 2.6],
  shiftRpm: 5900,
  shiftGapS: 0.28,
  shiftLeft: 0.45,
  converter: { atRest: 1.7, lockMps: 9 },
  tractionN: traction(1680, 0.55, 0.85),
  dragAreaM2: 0.69,
  rollingResistance: 0.012,
  rotatingShare: engineAndWheels,
  brakeMps2: 8.9,
  brakeBuildUpS: 0.2,
  launches: [
    { id: 'from-idle', rampS: 0.5, shape: 'smooth' },
    { id: 'held-on-brake', rampS: 0.22, shape: 'linear' },
  ],
};

export const MANUAL_TURBO: SimulatedCar = {
  id: 'manual-turbo',
  massKg: 1460,
  powerW: 132_000,
  torqueNm: 270,
  efficiency: 0.88,
  wheelRadiusM: 0.315,
  ratios: [13.4, 7.9, 5.2, 3.9, 3.1, 2.6],
  shiftRpm: 6300,
  shiftGapS: 0.38,
  shiftLeft: 0,
  tractionN: traction(1460, 0.58, 0.85),
  dragAreaM2: 0.63,
  rollingResistance: 0.0115,
  rotatingShare: engineAndWheels,
  brakeMps2: 9.4,
  brakeBuildUpS: 0.16,
  launches: [
    { id: 'quick-clutch', rampS: 0.15, shape: 'linear', dip: { atS: 0.35, forS: 0.5, depth: 0.35 } },
    { id: 'slipped-clutch', rampS: 0.35, shape: 'smooth' },
  ],
};

export const DIESEL_VAN: SimulatedCar = {
  id: 'diesel-van',
  massKg: 2290,
  powerW: 103_000,
  torqueNm: 340,
  efficiency: 0.87,
  wheelRadiusM: 0.335,
  ratios: [13.3, 7.6, 5.1, 3.7, 2.9, 2.4],
  shiftRpm: 4000,
  shiftGapS: 0.5,
  shiftLeft: 0,
  tractionN: traction(2290, 0.5, 0.8),
  dragAreaM2: 1.35,
  rollingResistance: 0.013,
  rotatingShare: engineAndWheels,
  brakeMps2: 8.1,
  brakeBuildUpS: 0.25,
  launches: [
    { id: 'clutch-at-idle', rampS: 0.5, shape: 'smooth', dip: { atS: 0.5, forS: 1.2, depth: 0.4 } },
    { id: 'slipped-clutch', rampS: 0.3, shape: 'smooth' },
  ],
};

export const CARS: readonly SimulatedCar[] = [ELECTRIC_HATCH, AUTOMATIC_ESTATE, MANUAL_TURBO, DIESEL_VAN];
