/**
 * Heat of a slipping clutch.
 *
 * Engine held at ω while the clutch carries T: power lost is T (ω − ω_driven); with a constant force the driven side
 * comes up in a straight line, so that the heat is half of what the engine gave, ½ T ω t. Without load that equals
 * the kinetic energy the car has when the slip ends, ½ m v² — whatever torque and time (closed form; the text books on
 * clutches give it, such as Shigley, Mechanical Engineering Design, from memory).
 */

/** A launch with engine speed and torque held until the clutch no longer slips. */
export interface HeldLaunch {
  /** Engine speed held, 1/min. */
  readonly engineRpm: number;
  /** Torque the clutch carries, N·m. */
  readonly torqueNm: number;
  /** Turns of the engine for one turn of the wheels. */
  readonly overallRatio: number;
  readonly wheelRadiusM: number;
  /** Mass of the car and, where known, what turns behind the clutch, kg. */
  readonly massKg: number;
  /** Force that resists the car, N; 0 unless told. */
  readonly resistanceN?: number;
}

export interface Slip {
  /** Speed of the car when the slip ends, m/s. */
  readonly syncMps: number;
  readonly slipS: number;
  /** Heat in the clutch, J. */
  readonly heatJ: number;
}

/** Slip of a held launch: v = ω r / i, t = m v / (T i / r − F), E = ½ T ω t. @throws RangeError where it cannot move. */
export function heldLaunchSlip(launch: HeldLaunch): Slip {
  const { engineRpm, torqueNm, overallRatio, wheelRadiusM, massKg, resistanceN = 0 } = launch;
  const engineRadps = (engineRpm * Math.PI) / 30;
  const syncMps = (engineRadps * wheelRadiusM) / overallRatio;
  const forceN = (torqueNm * overallRatio) / wheelRadiusM - resistanceN;
  if (!(forceN > 0)) throw new RangeError('The clutch carries too little torque to move the car');
  const slipS = (massKg * syncMps) / forceN;
  return { syncMps, slipS, heatJ: (torqueNm * engineRadps * slipS) / 2 };
}

/** Kinetic energy, ½ m v², J: the heat of a slip that ends at this speed with the engine held and no load. */
export const kineticEnergyJ = (massKg: number, speedMps: number): number => 0.5 * massKg * speedMps ** 2;
