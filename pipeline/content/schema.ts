/**
 * What people write in content/, field by field. Units stand in the names, as people say them;
 * they are converted once, in `model.ts`. Every description reaches editors through the JSON Schemas.
 */
import { z } from 'zod';

const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .meta({ description: 'Lower-case letters, digits and single hyphens' });
const words = z.string().trim().min(1);
const clockTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?$/)
  .meta({ description: 'Time of day on the clock at the road, in quotes: "10:22" or "10:22:40"' });
const zone = z
  .string()
  .regex(/^[+-](0\d|1[0-4]):[0-5]\d$/)
  .meta({ description: 'How far the clock at the road is ahead of UTC, in quotes: "+01:00"' });
const isoDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .meta({ description: 'Year-month-day, in quotes: "2026-05-12"' });

export const START_RULES = ['first-movement', 'one-foot-rollout'] as const;
export const DRIVES = ['electric', 'petrol', 'petrol-boosted', 'diesel', 'diesel-boosted'] as const;
export const SURFACES = ['dry', 'damp', 'wet'] as const;

/** content/house.yaml: the publication. */
export const houseSchema = z.strictObject({
  name: words.meta({ description: 'Name of the publication' }),
  strapline: words.optional(),
  site: z.url().meta({ description: 'Address the site will have, with https://' }),
  language: z
    .string()
    .regex(/^[a-z]{2}(-[A-Z]{2})?$/)
    .meta({ description: 'Such as en-GB' }),
  headline_start_rule: z
    .enum(START_RULES)
    .meta({ description: 'Start rule of headline figures; both are always shown' }),
  licence: z.strictObject({ name: words, url: z.url() }).meta({ description: 'Licence of figures and data' }),
  caution: words
    .optional()
    .meta({ description: 'Added after the standard caution, such as whom to ask for permission' }),
  limits: z
    .strictObject({
      wind_mps: z.number().positive().optional(),
      slope_pct: z.number().positive().optional(),
      rate_hz: z.number().positive().optional(),
    })
    .optional()
    .meta({ description: 'Beyond these a run is flagged' }),
  launch_methods: z
    .array(
      z.strictObject({
        id: slug,
        name: words,
        how: words.meta({ description: 'What the driver does, in a sentence' }),
      }),
    )
    .min(1),
});

/** content/cars/<id>.yaml: the car as its maker describes it. */
export const carSchema = z.strictObject({
  name: words.meta({ description: 'Make and model in full' }),
  short_name: words.meta({ description: 'For labels: at most about 14 characters' }),
  kind: words.meta({ description: 'Such as "five-door hatchback"' }),
  drive: z.enum(DRIVES),
  driven_wheels: z.enum(['front', 'rear', 'all']),
  gearbox: words,
  power_kw: z.number().positive(),
  torque_nm: z.number().positive().optional(),
  kerb_mass_kg: z.number().positive(),
  drag_area_m2: z.number().positive().optional().meta({ description: 'Drag coefficient times frontal area' }),
  rolling_resistance: z.number().positive().optional(),
  price: words.optional(),
  maker_claims: z
    .strictObject({
      zero_to_100_kmh_s: z.number().positive().optional(),
      top_speed_kmh: z.number().positive().optional(),
    })
    .optional(),
});

/** content/roads/<id>.yaml: the closed road. */
export const roadSchema = z.strictObject({
  name: words,
  about: words.meta({ description: 'What it is and how it is closed to others' }),
  permission: words.meta({ description: 'Who allowed the tests' }),
  surface: words.meta({ description: 'Such as "grooved concrete, 1958"' }),
  length_m: z.number().positive(),
  width_m: z.number().positive().optional(),
  altitude_m: z.number().optional(),
  directions: z
    .array(z.strictObject({ id: slug, name: words, heading_deg: z.number().min(0).max(360) }))
    .min(1)
    .max(2),
  slope_pct: z.number().optional().meta({ description: 'Mean rise in the first direction; negative falls' }),
  profile: z
    .array(z.tuple([z.number(), z.number()]))
    .min(2)
    .optional()
    .meta({ description: 'Pairs of distance from the start and height, m, in the first direction' }),
});

const conditionsReading = z.strictObject({
  at: clockTime,
  temperature_c: z.number().min(-60).max(60).optional(),
  pressure_hpa: z
    .number()
    .min(500)
    .max(1100)
    .optional()
    .meta({ description: 'At the road, not reduced to sea level' }),
  humidity_pct: z.number().min(0).max(100).optional(),
  wind_mps: z.number().min(0).optional(),
  wind_from_deg: z.number().min(0).max(360).optional(),
  gust_mps: z.number().min(0).optional(),
  surface: z.enum(SURFACES).optional(),
  note: words.optional(),
});

const declaredColumn = z.strictObject({ name: words, unit: words.optional() });

/** content/tests/<id>/test.yaml: one car on one road on one day. */
export const testSchema = z.strictObject({
  title: words,
  standfirst: words.meta({ description: 'One or two sentences under the title' }),
  car: slug.meta({ description: 'Name of a file in cars/, without .yaml' }),
  road: slug.meta({ description: 'Name of a file in roads/, without .yaml' }),
  date: isoDate,
  published: isoDate.optional(),
  time_zone: zone,
  byline: words.optional(),
  as_tested: z.strictObject({
    mass_kg: z
      .number()
      .positive()
      .meta({ description: 'Car, fuel, people and gear together, as weighed or worked out' }),
    mass_from: z.enum(['weighed', 'worked-out']).optional(),
    aboard: words,
    fuel: words,
    tyres: words,
    tyre_pressure_front_kpa: z.number().positive().optional(),
    tyre_pressure_rear_kpa: z.number().positive().optional(),
    odometer_km: z.number().nonnegative().optional(),
    notes: words.optional(),
  }),
  receiver: z.strictObject({
    what: words.meta({
      description: 'Kind of receiver and where it sat, such as "25 Hz satellite receiver, roof centre"',
    }),
    speed_accuracy_kmh: z
      .number()
      .positive()
      .optional()
      .meta({ description: 'One standard deviation, as its maker states' }),
  }),
  conditions: z.array(conditionsReading).min(1),
  logs: z
    .array(
      z.strictObject({
        file: words.meta({ description: 'Path from this folder, such as logs/morning.csv' }),
        starts_at: clockTime.optional().meta({ description: 'Only where the log itself carries no clock' }),
        columns: z.record(z.string(), declaredColumn).optional(),
      }),
    )
    .min(1),
  attempts: z
    .array(
      z.strictObject({
        at: clockTime.optional().meta({ description: 'When the attempt began, to within 30 s' }),
        log: words.optional().meta({ description: 'With `run`: the log it is in, as under logs' }),
        run: z
          .number()
          .int()
          .positive()
          .optional()
          .meta({ description: 'Number of the run in its log, instead of `at`' }),
        launch: slug.optional().meta({ description: 'Launch method of house.yaml' }),
        direction: slug.optional().meta({ description: 'Direction of the road' }),
        note: words.optional(),
        set_aside: words.optional().meta({ description: 'The reason, where the attempt does not count' }),
      }),
    )
    .min(1),
  lower_thirds: z.boolean().optional(),
});

export type HouseContent = z.infer<typeof houseSchema>;
export type CarContent = z.infer<typeof carSchema>;
export type RoadContent = z.infer<typeof roadSchema>;
export type TestContent = z.infer<typeof testSchema>;
export type ConditionsContent = z.infer<typeof conditionsReading>;
