/** A rule in another language: its words exchanged, its numbers the same. */
import type { Spoken } from '../../language.ts';
import type { Method } from '../methods.ts';
import { unitInWords } from './units.ts';

export interface RuleWords {
  readonly name: string;
  readonly rule: string;
  /** What each constant is, in the order of the rule's own. */
  readonly constants: readonly string[];
  /** Also where it is a citation and reads the same. */
  readonly source: string;
}

/**
 * Every rule with these words.
 * @throws Error where a rule has more or fewer constants than it has words for: they would go to the wrong ones
 */
export function translateRules<Id extends string>(
  rules: Readonly<Record<Id, Method>>,
  words: Readonly<Record<Id, RuleWords>>,
  spoken: Spoken,
): Readonly<Record<Id, Method>> {
  const translated = (Object.keys(rules) as Id[]).map((id): [Id, Method] => {
    const { name, rule, source, constants } = words[id];
    if (constants.length !== rules[id].constants.length) {
      throw new Error(`${id}: ${rules[id].constants.length} constants and words for ${constants.length}`);
    }
    return [
      id,
      {
        name,
        rule,
        source,
        constants: rules[id].constants.map((constant, i) => ({
          ...constant,
          what: constants[i]!,
          unit: unitInWords(constant.unit, spoken),
        })),
      },
    ];
  });
  return Object.fromEntries(translated) as Record<Id, Method>;
}

/** Sources that are no citation, in German. */
export const EIGENE = 'Eigene Regel';
export const UEBLICH = 'Allgemein üblich, ohne Quelle';
