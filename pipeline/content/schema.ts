/**
 * What people write in content/, field by field. Units stand in the names, as people say them;
 * they are converted once, when a test is put together. Every description reaches editors through the
 * JSON Schemas and people through the messages of `evenground check`.
 *
 * A description on a bare type (a clock time, a short name) says how to write it; a description on a
 * field says what it is. Nothing here transforms a value, so that the written form is the checked form.
 */
import { z } from 'zod';
import { isoDate, prose, START_RULES, slug, words } from './schema-base.ts';
import { correction } from './sign-off-schema.ts';

export { START_RULES } from './schema-base.ts';

const clockTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?$/)
  .meta({ description: 'a time of day on the 24-hour clock, in quotes: "09:22" or "09:22:40"' });
const zone = z
  .string()
  .regex(/^[+-](0\d|1[0-4]):[0-5]\d$/)
  .meta({ description: 'hours and minutes with a sign, in quotes: "+01:00"' });
const webAddress = z
  .url({ protocol: /^https?$/ })
  .max(500)
  .meta({ description: 'a web address that begins with https://' });
const colour = z
  .string()
  .regex(/^#[0-9a-fA-F]{6}$/)
  .meta({ description: 'a colour as # and six hexadecimal digits, in quotes: "#9a3412"' });
const languageTag = z
  .string()
  .regex(/^[a-z]{2}(-[A-Z]{2})?$/)
  .meta({ description: 'a language, such as en-GB' });
const headingDeg = z.number().min(0).max(360);

export const DRIVES = ['electric', 'petrol', 'petrol-boosted', 'diesel', 'diesel-boosted'] as const;
export const SURFACES = ['dry', 'damp', 'wet'] as const;
export const RESTATE_WITH = ['car', 'coast-downs'] as const;

export const SAFE_AREAS = ['ebu-r95', 'smpte-st-2046-1'] as const;

/** How plates over video look; `check` measures whether their text can be read over any picture. */
const lookSchema = z
  .strictObject({
    ground: colour.optional().meta({ description: 'Ground of the plate' }),
    text: colour.optional().meta({ description: 'Title and numbers on the ground, at least 4.5:1' }),
    quiet_text: colour.optional().meta({
      description: 'Subtitle, units and uncertainties on the ground, at least 4.5:1',
    }),
    accent: colour.optional().meta({
      description: 'Name of the publication and the number that matters, at least 4.5:1 on the ground',
    }),
    foot_ground: colour.optional().meta({ description: 'Ground of the foot, under the numbers' }),
    foot_text: colour.optional().meta({ description: 'Text of the foot, at least 4.5:1 on its ground' }),
    corner: z.enum(['left', 'right']).optional().meta({
      description: 'Lower corner the plate stands in; left where absent',
    }),
    number_face: z.enum(['serif', 'sans']).optional().meta({
      description: 'Face of the large numbers; serif where absent',
    }),
    logo: z.string().trim().min(1).max(300).optional().meta({
      description: 'SVG or PNG file in content/, such as logo.svg; stands beside the title',
    }),
  })
  .meta({ description: 'How the lower thirds look' });

const videoSchema = z
  .strictObject({
    sizes: z
      .array(
        z
          .string()
          .regex(/^([2-9]\d\d|[1-9]\d{3}|1[0-5]\d{3})x([2-9]\d\d|[1-9]\d{3}|1[0-5]\d{3})$/)
          .meta({ description: 'width x height in pixels, each from 200 to 15999: "1920x1080"' }),
      )
      .min(1)
      .max(12)
      .optional()
      .meta({ description: 'Sizes of picture that lower thirds are made for' }),
    safe_areas: z.enum(SAFE_AREAS).optional().meta({
      description: 'Whose safe areas are kept to; ebu-r95 where absent',
    }),
  })
  .meta({ description: 'What the film is cut in' });

export const PRESS_PAPERS = ['light', 'dark', 'mono'] as const;

const pressSchema = z
  .strictObject({
    papers: z.array(z.enum(PRESS_PAPERS)).min(1).max(3).optional().meta({
      description:
        'Grounds that page figures are made on; light always, for the site shows it. All three where absent: wide and narrow light and dark, print light and in black and white (mono)',
    }),
    files: z.enum(['all', 'pages']).optional().meta({
      description:
        "all: each figure in every layout as SVG, PNG, PDF and HTML for print and other publishing systems, where absent; pages: only what this site's own pages show, for an archive of hundreds of tests",
    }),
    crops: z.enum(['article', 'all', 'none']).optional().meta({
      description:
        "Which figures are made as social pictures in 1:1, 4:5, 9:16 and 16:9 too: those of the article where absent, a test's every one, or none",
    }),
    formats: z
      .array(z.enum(['webp', 'avif']))
      .min(1)
      .max(2)
      .optional()
      .meta({
        description: 'Formats besides SVG, PNG and PDF, for publishing systems that want them',
      }),
  })
  .meta({ description: 'What the press folder holds of each figure' });

/** content/house.yaml: the publication. */
export const houseSchema = z
  .strictObject({
    name: words.meta({ description: 'Name of the publication' }),
    strapline: words.optional().meta({ description: 'One line under the name on the front page' }),
    site: webAddress.meta({ description: 'Address the site will have, with https://' }),
    language: languageTag.meta({
      description: 'Language the articles are written in, such as en-GB',
    }),
    further_languages: z.array(languageTag).min(1).max(12).optional().meta({
      description: 'Languages that pages are made in besides, such as de-DE',
    }),
    units: z.enum(['kmh', 'mph']).optional().meta({
      description:
        'What speeds are in, everywhere readers see one: km/h (kmh, where absent) or miles an hour (mph)',
    }),
    headline_start_rule: z.enum(START_RULES).meta({
      description: 'Start rule of headline figures; both rules are always worked out and shown',
    }),
    licence: z
      .strictObject({
        name: words.meta({ description: 'Name of the licence, such as CC BY 4.0' }),
        url: webAddress.meta({ description: 'Address of the full text of the licence' }),
      })
      .meta({ description: 'Licence of figures and data' }),
    caution: prose.optional().meta({
      description: 'Added after the standard caution, such as whom to ask for permission',
    }),
    limits: z
      .strictObject({
        wind_mps: z.number().positive().optional().meta({ description: 'Wind speed, m/s' }),
        slope_pct: z.number().positive().optional().meta({ description: 'Slope of the road either way, %' }),
        rate_hz: z.number().positive().optional().meta({
          description: 'Fewest fresh readings a second a log should have',
        }),
      })
      .optional()
      .meta({ description: 'Beyond these a run is flagged on every page that shows it' }),
    launch_methods: z
      .array(
        z
          .strictObject({
            id: slug.meta({ description: 'Short name that attempts use' }),
            name: words.meta({ description: 'Name that readers see' }),
            how: prose.meta({ description: 'What the driver does, in a sentence' }),
          })
          .meta({ description: 'One launch method' }),
      )
      .min(1)
      .max(24)
      .meta({ description: 'The launch methods that attempts may name' }),
    look: lookSchema.optional().meta({ description: 'How the lower thirds look' }),
    video: videoSchema.optional().meta({ description: 'What the film is cut in' }),
    press: pressSchema.optional().meta({ description: 'What the press folder holds of each figure' }),
  })
  .meta({ title: 'House', description: 'The publication' });

/** content/cars/<id>.yaml: the car as its maker describes it. */
export const carSchema = z
  .strictObject({
    name: words.meta({ description: 'Make and model in full' }),
    short_name: z.string().trim().min(1).max(24).meta({
      description: 'For labels: at most about 14 characters',
    }),
    kind: words.meta({ description: 'Kind of car, such as five-door hatchback' }),
    drive: z.enum(DRIVES).meta({
      description:
        'What drives it; "boosted" means with a turbocharger or supercharger, and petrol or diesel alone is printed as naturally aspirated',
    }),
    driven_wheels: z.enum(['front', 'rear', 'all']).meta({ description: 'Which wheels are driven' }),
    gearbox: words.meta({ description: 'Such as six-speed manual, or single-speed' }),
    power_kw: z.number().positive().max(3000).meta({ description: 'Rated power, kW' }),
    torque_nm: z.number().positive().max(10000).optional().meta({ description: 'Rated torque, N·m' }),
    kerb_mass_kg: z.number().positive().max(60000).meta({
      description: 'Mass of the car as its maker states it, kg',
    }),
    drag_area_m2: z.number().positive().max(20).optional().meta({
      description: 'Drag coefficient times frontal area, m²',
    }),
    rolling_resistance: z.number().positive().max(0.2).optional().meta({
      description: 'Rolling resistance coefficient, such as 0.010',
    }),
    price: words.optional().meta({ description: 'Price with its currency, as it should be printed' }),
    maker_claims: z
      .strictObject({
        zero_to_100_kmh_s: z.number().positive().optional().meta({
          description: 'Time from 0 to 100 km/h that the maker claims, s',
        }),
        zero_to_60_mph_s: z.number().positive().optional().meta({
          description: 'Time from 0 to 60 mph that the maker claims, s',
        }),
        top_speed_kmh: z.number().positive().optional().meta({
          description: 'Top speed that the maker claims, km/h',
        }),
      })
      .optional()
      .meta({ description: "The maker's own figures, printed beside the measured ones" }),
  })
  .meta({ title: 'Car', description: 'A car as its maker describes it' });

/** content/roads/<id>.yaml: the closed road. */
export const roadSchema = z
  .strictObject({
    name: words.meta({ description: 'Name of the road or airfield' }),
    about: prose.meta({ description: 'What it is and how it is closed to others' }),
    permission: prose.meta({ description: 'Who allowed the tests' }),
    surface: words.meta({ description: 'What it is made of, such as grooved concrete' }),
    length_m: z.number().positive().max(100000).meta({ description: 'Length that can be driven, m' }),
    width_m: z.number().positive().max(1000).optional().meta({ description: 'Width, m' }),
    altitude_m: z.number().min(-500).max(6000).optional().meta({
      description: 'Height above sea level, m',
    }),
    directions: z
      .array(
        z
          .strictObject({
            id: slug.meta({ description: 'Short name that attempts use, such as north' }),
            name: words.meta({ description: 'Name that readers see' }),
            heading_deg: headingDeg.meta({
              description: 'Heading of a car driving this way, degrees from true north',
            }),
          })
          .meta({ description: 'One way along the road' }),
      )
      .min(1)
      .max(2)
      .meta({ description: 'The one or two ways along the road' }),
    slope_pct: z.number().min(-40).max(40).optional().meta({
      description: 'Mean rise in the first direction, %; negative falls',
    }),
    profile: z
      .array(z.tuple([z.number(), z.number()]).meta({ description: 'Distance and height, m' }))
      .min(2)
      .max(5000)
      .optional()
      .meta({ description: 'Pairs of distance from the start and height, m, in the first direction' }),
    slope_from_logs: z
      .strictObject({
        latitude_deg: z.number().min(-90).max(90).meta({ description: 'Latitude of the start, degrees' }),
        longitude_deg: z.number().min(-180).max(180).meta({
          description: 'Longitude of the start, degrees, positive to the east',
        }),
      })
      .optional()
      .meta({
        description:
          'Where the road begins, for a road that was not levelled: its mean slope is then taken from the altitude that the logs of a test hold, over many passes',
      }),
  })
  .meta({ title: 'Road', description: 'A closed road' });

const conditionsReading = z
  .strictObject({
    at: clockTime.meta({ description: 'When it was read, on the clock at the road, in quotes: "10:15"' }),
    temperature_c: z.number().min(-60).max(60).optional().meta({
      description: 'Temperature of the air, °C',
    }),
    pressure_hpa: z.number().min(500).max(1100).optional().meta({
      description: 'Pressure of the air at the road, hPa, not reduced to sea level',
    }),
    humidity_pct: z.number().min(0).max(100).optional().meta({ description: 'Relative humidity, %' }),
    wind_mps: z.number().min(0).max(75).optional().meta({ description: 'Mean wind speed, m/s' }),
    wind_from_deg: headingDeg.optional().meta({
      description: 'Where the wind comes from, degrees from true north',
    }),
    gust_mps: z.number().min(0).max(120).optional().meta({ description: 'Strongest gust, m/s' }),
    surface: z.enum(SURFACES).optional().meta({ description: 'State of the road' }),
    note: prose.optional().meta({ description: 'Anything else worth telling readers' }),
  })
  .meta({ description: 'One reading of air, wind and surface' });

const declaredColumn = z
  .strictObject({
    name: words.meta({ description: 'Heading of the column in the log, as it stands there' }),
    unit: words.optional().meta({ description: 'Unit of the column, such as km/h' }),
  })
  .meta({ description: 'One column of the log' });

/** content/tests/<id>/test.yaml: one car on one road on one day. */
export const testSchema = z
  .strictObject({
    title: words.meta({ description: 'Title of the article' }),
    standfirst: prose.meta({ description: 'One or two sentences under the title' }),
    car: slug.meta({ description: 'Name of a file in cars/, without .yaml' }),
    road: slug.meta({ description: 'Name of a file in roads/, without .yaml' }),
    date: isoDate.meta({ description: 'Day of the test at the road, in quotes: "2026-05-12"' }),
    published: isoDate.optional().meta({ description: 'Day the article goes out; absent for a draft' }),
    time_zone: zone.meta({
      description: 'How far the clock at the road is ahead of UTC, in quotes: "+01:00"',
    }),
    byline: words.optional().meta({ description: 'Who drove and wrote' }),
    as_tested: z
      .strictObject({
        mass_kg: z.number().positive().max(60000).meta({
          description: 'Car, fuel, people and gear together, as weighed or worked out, kg',
        }),
        mass_from: z.enum(['weighed', 'worked-out']).optional().meta({
          description: 'Whether the mass was weighed or worked out',
        }),
        aboard: words.meta({ description: 'Who and what was in the car' }),
        fuel: words.meta({ description: 'Fuel or charge at the start, such as three quarters of a tank' }),
        tyres: words.meta({ description: 'Kind and size of the tyres' }),
        tyre_pressure_front_kpa: z.number().positive().max(1500).optional().meta({
          description: 'Pressure of the front tyres, cold, kPa',
        }),
        tyre_pressure_rear_kpa: z.number().positive().max(1500).optional().meta({
          description: 'Pressure of the rear tyres, cold, kPa',
        }),
        odometer_km: z.number().nonnegative().optional().meta({
          description: 'Distance driven before the test, km',
        }),
        notes: prose.optional().meta({ description: 'Anything that differs from the car as sold' }),
      })
      .meta({ description: 'The car as it was on the day' }),
    receiver: z
      .strictObject({
        what: words.meta({
          description: 'Kind of receiver and where it sat, such as 25 Hz satellite receiver, roof centre',
        }),
        speed_accuracy_kmh: z.number().positive().max(20).optional().meta({
          description: 'Accuracy of its speed as its maker states it, one standard deviation, km/h',
        }),
      })
      .meta({ description: 'What recorded the speed' }),
    conditions: z.array(conditionsReading).min(1).max(500).meta({
      description: 'Readings of air, wind and surface in the order of time',
    }),
    logs: z
      .array(
        z
          .strictObject({
            file: z.string().trim().min(1).max(300).meta({
              description: 'Path from this folder, such as logs/morning.csv',
            }),
            starts_at: clockTime.optional().meta({
              description: 'When the log begins, only where the log itself carries no clock',
            }),
            columns: z.record(z.string().max(60), declaredColumn).optional().meta({
              description: 'Which column is what, only where the headings do not tell',
            }),
            coast_downs: z.array(slug).min(1).max(60).optional().meta({
              description:
                'Only of a log taken coasting, out of gear: the direction of each coast-down in it, in order; no run of this log is an attempt',
            }),
          })
          .meta({ description: 'One log' }),
      )
      .min(1)
      .max(100)
      .meta({ description: 'The logs of the day' }),
    attempts: z
      .array(
        z
          .strictObject({
            at: clockTime.optional().meta({
              description: 'When the attempt began, on the clock at the road, to within 30 s',
            }),
            log: z.string().trim().min(1).max(300).optional().meta({
              description: 'The log it is in, as under logs; needed with run where there are several',
            }),
            run: z.number().int().positive().optional().meta({
              description: 'Number of the run in its log, instead of at',
            }),
            launch: slug.optional().meta({ description: 'Launch method, by its id in house.yaml' }),
            direction: slug.optional().meta({ description: 'Direction, by its id in the road file' }),
            note: prose.optional().meta({ description: 'What the tester noted' }),
            set_aside: prose.optional().meta({
              description: 'The reason, where the attempt does not count',
            }),
          })
          .meta({ description: 'One attempt, as the tester noted it' }),
      )
      .min(1)
      .max(1000)
      .meta({ description: 'Every attempt of the day, kept or set aside' }),
    restate_with: z.enum(RESTATE_WITH).optional().meta({
      description:
        "Where drag area and rolling resistance of restated figures come from: the car's file (car), or the coast-downs of this test (coast-downs); the car's file where absent",
    }),
    lower_thirds: z.boolean().optional().meta({
      description: 'Whether to make pictures for video of this test',
    }),
    corrections: z.array(correction).min(1).max(200).optional().meta({
      description: 'What was put right after the numbers went out, oldest first',
    }),
  })
  .meta({ title: 'Test', description: 'One car on one road on one day' });

export type HouseContent = z.infer<typeof houseSchema>;
export type CarContent = z.infer<typeof carSchema>;
export type RoadContent = z.infer<typeof roadSchema>;
export type TestContent = z.infer<typeof testSchema>;
export type ConditionsContent = z.infer<typeof conditionsReading>;
