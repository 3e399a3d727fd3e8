/** The file behind `measure --conditions`: car, air, wind and road of a log's runs, without a content folder. */
import { z } from 'zod';
import { airDensity } from '../conditions/air.ts';
import { densityAltitudeM } from '../conditions/atmosphere.ts';
import type { RunCircumstances } from '../conditions/circumstances.ts';
import { constantSlope, surveyedSlope } from '../conditions/slope.ts';
import type { Problem } from '../problem.ts';
import { profileOutOfOrder } from '../problems/content.ts';
import { celsiusToKelvin, hpaToPa } from '../units.ts';
import { parseAs } from './parse.ts';
import { DRIVES } from './schema.ts';

/** Nothing in it must be there: a fact that is not is named in the flag of what could not be restated for it. */
export const conditionsFileSchema = z
  .strictObject({
    car: z
      .strictObject({
        mass_kg: z.number().positive().max(60000).optional().meta({
          description: 'Car, fuel, people and gear together, kg',
        }),
        drag_area_m2: z.number().positive().max(20).optional().meta({
          description: 'Drag coefficient times frontal area, m²',
        }),
        rolling_resistance: z.number().positive().max(0.2).optional().meta({
          description: 'Rolling resistance coefficient, such as 0.010',
        }),
        drive: z.enum(DRIVES).optional().meta({
          description:
            'What drives it; "boosted" means with a turbocharger or supercharger, and petrol or diesel alone is printed as naturally aspirated',
        }),
      })
      .optional()
      .meta({ description: 'The car as it was driven' }),
    air: z
      .strictObject({
        temperature_c: z.number().min(-60).max(60).optional().meta({
          description: 'Temperature of the air, °C',
        }),
        pressure_hpa: z.number().min(500).max(1100).optional().meta({
          description: 'Pressure of the air at the road, hPa, not reduced to sea level',
        }),
        humidity_pct: z.number().min(0).max(100).optional().meta({ description: 'Relative humidity, %' }),
      })
      .optional()
      .meta({ description: 'The air at the road' }),
    wind: z
      .strictObject({
        headwind_mps: z.number().min(-75).max(75).optional().meta({
          description: 'Mean wind along the run, positive against the car, m/s',
        }),
      })
      .optional()
      .meta({ description: 'The wind along the run' }),
    road: z
      .strictObject({
        slope_pct: z.number().min(-40).max(40).optional().meta({
          description: 'Mean rise in the direction of the run, %; negative falls',
        }),
        profile: z
          .array(z.tuple([z.number(), z.number()]).meta({ description: 'Distance and height, m' }))
          .min(2)
          .max(5000)
          .optional()
          .meta({
            description: 'Pairs of distance from the start and height, m; taken where slope_pct is given too',
          }),
      })
      .optional()
      .meta({ description: 'The road in the direction of the run' }),
  })
  .meta({ title: 'Conditions', description: 'Car, air, wind and road of the runs in a log' });

export type ConditionsFileContent = z.infer<typeof conditionsFileSchema>;

export interface ConditionsFile {
  /** Present where the file has no faults. */
  readonly circumstances?: RunCircumstances;
  readonly problems: readonly Problem[];
}

/** Reads and checks the file; every fault is told with its line, none is thrown. */
export function readConditionsFile(file: string, bytes: Uint8Array): ConditionsFile {
  const parsed = parseAs(file, bytes, conditionsFileSchema);
  const { value } = parsed;
  if (value === undefined) return { problems: parsed.problems };
  const profile = value.road?.profile ?? [];
  const backward = profile.flatMap(([distanceM], i): Problem[] => {
    const earlier = profile[i - 1]?.[0];
    return earlier === undefined || distanceM > earlier
      ? []
      : [profileOutOfOrder(parsed.place(['road', 'profile', i, 0]), earlier, distanceM)];
  });
  if (backward.length > 0) return { problems: [...parsed.problems, ...backward] };
  return { circumstances: conditionsToCircumstances(value), problems: parsed.problems };
}

/** The facts in SI. @throws RangeError for a profile whose distances do not grow. */
export function conditionsToCircumstances({ car, air, wind, road }: ConditionsFileContent): RunCircumstances {
  const slope =
    road?.profile === undefined
      ? road?.slope_pct === undefined
        ? undefined
        : constantSlope(road.slope_pct)
      : surveyedSlope(road.profile);
  return {
    car: {
      ...(car?.mass_kg === undefined ? {} : { massKg: car.mass_kg }),
      ...(car?.drag_area_m2 === undefined ? {} : { dragAreaM2: car.drag_area_m2 }),
      ...(car?.rolling_resistance === undefined ? {} : { rollingResistance: car.rolling_resistance }),
      ...(car?.drive === undefined ? {} : { drive: car.drive }),
    },
    air: {
      ...(air?.temperature_c === undefined ? {} : { temperatureK: celsiusToKelvin(air.temperature_c) }),
      ...(air?.pressure_hpa === undefined ? {} : { pressurePa: hpaToPa(air.pressure_hpa) }),
      ...(air?.humidity_pct === undefined ? {} : { relativeHumidity: air.humidity_pct / 100 }),
    },
    ...(wind?.headwind_mps === undefined ? {} : { headwindMps: wind.headwind_mps }),
    ...(slope === undefined ? {} : { road: slope }),
  };
}

/** Density and density altitude of the air, where it is known in full and an altitude has it. */
export function airOf({
  air,
}: RunCircumstances): { readonly densityKgm3: number; readonly densityAltitudeM: number } | undefined {
  const { temperatureK, pressurePa, relativeHumidity } = air;
  if (temperatureK === undefined || pressurePa === undefined || relativeHumidity === undefined)
    return undefined;
  const { densityKgm3 } = airDensity({ temperatureK, pressurePa, relativeHumidity });
  return { densityKgm3, densityAltitudeM: densityAltitudeM(densityKgm3) };
}
