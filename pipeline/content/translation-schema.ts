/**
 * What people write in `<file>.<language>.yaml` beside a content file: its words for readers in that language, under
 * the same names. Nothing need be there; what is left out is shown in the main language.
 */
import { z } from 'zod';
import { prose, slug, words } from './schema-base.ts';

/** content/house.<language>.yaml */
export const houseWordsSchema = z
  .strictObject({
    strapline: words.optional().meta({ description: 'One line under the name on the front page' }),
    caution: prose.optional().meta({ description: 'Added after the standard caution' }),
    licence_name: words.optional().meta({ description: 'Name of the licence, where it has another here' }),
    launch_methods: z
      .record(
        slug,
        z
          .strictObject({
            name: words.optional().meta({ description: 'Name that readers see' }),
            how: prose.optional().meta({ description: 'What the driver does, in a sentence' }),
          })
          .meta({ description: 'One launch method, by its id' }),
      )
      .optional()
      .meta({ description: 'Launch methods by their id in house.yaml' }),
  })
  .meta({ title: 'House in another language', description: 'Words of house.yaml in another language' });

/** content/cars/<id>.<language>.yaml */
export const carWordsSchema = z
  .strictObject({
    name: words.optional().meta({ description: 'Make and model, where they have another name here' }),
    short_name: z.string().trim().min(1).max(24).optional().meta({
      description: 'For labels: at most about 14 characters',
    }),
    kind: words.optional().meta({ description: 'Kind of car, such as five-door hatchback' }),
    gearbox: words.optional().meta({ description: 'Such as six-speed manual, or single-speed' }),
    price: words.optional().meta({ description: 'Price with its currency, as it should be printed' }),
  })
  .meta({ title: 'Car in another language', description: 'Words of a car file in another language' });

/** content/roads/<id>.<language>.yaml */
export const roadWordsSchema = z
  .strictObject({
    name: words.optional().meta({ description: 'Name of the road or airfield' }),
    about: prose.optional().meta({ description: 'What it is and how it is closed to others' }),
    permission: prose.optional().meta({ description: 'Who allowed the tests' }),
    surface: words.optional().meta({ description: 'What it is made of, such as grooved concrete' }),
    directions: z
      .record(slug, words.meta({ description: 'Name that readers see' }))
      .optional()
      .meta({ description: 'Names of the directions by their id in the road file' }),
  })
  .meta({ title: 'Road in another language', description: 'Words of a road file in another language' });

/** content/tests/<id>/test.<language>.yaml */
export const testWordsSchema = z
  .strictObject({
    title: words.optional().meta({ description: 'Title of the article' }),
    standfirst: prose.optional().meta({ description: 'One or two sentences under the title' }),
    as_tested: z
      .strictObject({
        aboard: words.optional().meta({ description: 'Who and what was in the car' }),
        fuel: words.optional().meta({ description: 'Fuel or charge at the start' }),
        tyres: words.optional().meta({ description: 'Kind and size of the tyres' }),
        notes: prose.optional().meta({ description: 'Anything that differs from the car as sold' }),
      })
      .optional()
      .meta({ description: 'The car as it was on the day' }),
    receiver: words.optional().meta({ description: 'Kind of receiver and where it sat' }),
    remarks: z
      .record(z.string().min(1).max(2000), prose.meta({ description: 'The same in this language' }))
      .optional()
      .meta({
        description:
          'Notes, reasons for setting aside and corrections: each as it stands in test.yaml, followed by the same in this language',
      }),
  })
  .meta({ title: 'Test in another language', description: 'Words of a test.yaml in another language' });

export type HouseWords = z.infer<typeof houseWordsSchema>;
export type CarWords = z.infer<typeof carWordsSchema>;
export type RoadWords = z.infer<typeof roadWordsSchema>;
export type TestWords = z.infer<typeof testWordsSchema>;
