/** Content with its words in another language: what has no translation stays in the main one, and is named. */
import type { CarContent, HouseContent, RoadContent, TestContent } from './schema.ts';
import type { CarWords, HouseWords, RoadWords, TestWords } from './translation-schema.ts';

export interface Translated<T> {
  readonly value: T;
  /** Paths of words that are still in the main language: `strapline`, `launch_methods.brake-hold.how`. */
  readonly untranslated: readonly string[];
}

/** Takes the word of the translation where there is one, and remembers where there is none. */
class Words {
  readonly untranslated: string[] = [];

  of(path: string, main: string, translated: string | undefined): string {
    if (translated === undefined) this.untranslated.push(path);
    return translated ?? main;
  }

  /** What the main language leaves out has no translation either. */
  optional<Key extends string>(
    path: string,
    key: Key,
    main: string | undefined,
    translated: string | undefined,
  ): { readonly [K in Key]?: string } {
    return main === undefined ? {} : ({ [key]: this.of(path, main, translated) } as { [K in Key]: string });
  }
}

/** Names of the publication and of its licence are kept where no other is given: they are names, not words. */
export function translateHouse<T extends HouseContent>(house: T, words: HouseWords = {}): Translated<T> {
  const say = new Words();
  const value: T = {
    ...house,
    ...say.optional('strapline', 'strapline', house.strapline, words.strapline),
    ...say.optional('caution', 'caution', house.caution, words.caution),
    licence: { ...house.licence, name: words.licence_name ?? house.licence.name },
    launch_methods: house.launch_methods.map(({ id, name, how }) => {
      const own = words.launch_methods?.[id];
      return {
        id,
        name: say.of(`launch_methods.${id}.name`, name, own?.name),
        how: say.of(`launch_methods.${id}.how`, how, own?.how),
      };
    }),
  };
  return { value, untranslated: say.untranslated };
}

/** Names and the price are kept where no other is given. */
export function translateCar<T extends CarContent>(car: T, words: CarWords = {}): Translated<T> {
  const say = new Words();
  const price = words.price ?? car.price;
  const value: T = {
    ...car,
    name: words.name ?? car.name,
    short_name: words.short_name ?? car.short_name,
    kind: say.of('kind', car.kind, words.kind),
    gearbox: say.of('gearbox', car.gearbox, words.gearbox),
    ...(price === undefined ? {} : { price }),
  };
  return { value, untranslated: say.untranslated };
}

/** The name is kept where no other is given. */
export function translateRoad<T extends RoadContent>(road: T, words: RoadWords = {}): Translated<T> {
  const say = new Words();
  const value: T = {
    ...road,
    name: words.name ?? road.name,
    about: say.of('about', road.about, words.about),
    permission: say.of('permission', road.permission, words.permission),
    surface: say.of('surface', road.surface, words.surface),
    directions: road.directions.map(direction => ({
      ...direction,
      name: say.of(`directions.${direction.id}`, direction.name, words.directions?.[direction.id]),
    })),
  };
  return { value, untranslated: say.untranslated };
}

export function translateTest<T extends TestContent>(test: T, words: TestWords = {}): Translated<T> {
  const say = new Words();
  const { as_tested, receiver } = test;
  const own = words.as_tested ?? {};
  const remark = (text: string): string =>
    say.of(
      remarkPath(text),
      text,
      words.remarks && Object.hasOwn(words.remarks, text) ? words.remarks[text] : undefined,
    );
  const value: T = {
    ...test,
    title: say.of('title', test.title, words.title),
    standfirst: say.of('standfirst', test.standfirst, words.standfirst),
    as_tested: {
      ...as_tested,
      aboard: say.of('as_tested.aboard', as_tested.aboard, own.aboard),
      fuel: say.of('as_tested.fuel', as_tested.fuel, own.fuel),
      tyres: say.of('as_tested.tyres', as_tested.tyres, own.tyres),
      ...say.optional('as_tested.notes', 'notes', as_tested.notes, own.notes),
    },
    receiver: { ...receiver, what: say.of('receiver', receiver.what, words.receiver) },
    conditions: test.conditions.map(reading =>
      reading.note === undefined ? reading : { ...reading, note: remark(reading.note) },
    ),
    attempts: test.attempts.map(attempt => ({
      ...attempt,
      ...(attempt.note === undefined ? {} : { note: remark(attempt.note) }),
      ...(attempt.set_aside === undefined ? {} : { set_aside: remark(attempt.set_aside) }),
    })),
    ...(test.corrections === undefined
      ? {}
      : {
          corrections: test.corrections.map(correction => ({
            ...correction,
            what: remark(correction.what),
            reason: remark(correction.reason),
          })),
        }),
  };
  return { value, untranslated: [...new Set(say.untranslated)] };
}

/** What a remark goes by among the untranslated: its own text. */
export const remarkPath = (text: string): string => `remarks: ${text}`;

/** Every remark of a test that can be translated. */
export const remarksOf = ({ conditions, attempts, corrections = [] }: TestContent): ReadonlySet<string> =>
  new Set(
    [
      ...conditions.map(({ note }) => note),
      ...attempts.flatMap(({ note, set_aside }) => [note, set_aside]),
      ...corrections.flatMap(({ what, reason }) => [what, reason]),
    ].filter(text => text !== undefined),
  );
