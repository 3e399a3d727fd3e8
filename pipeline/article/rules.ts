/** Every rule behind the figures by its word, which is also its place on the methodology page. */

import { catalogue } from '../language.ts';
import {
  METHODS,
  type Method,
  type MethodConstant,
  type MethodId,
  methodsIn,
} from '../measurement/methods.ts';
import { translateRules } from '../measurement/words/translated.ts';
import { localiseDigits, withUnit } from '../result/words.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import { COMPARISON_RULES, type ComparisonRuleId } from './comparison-rules.ts';
import { CONDITION_RULES, type ConditionRuleId } from './condition-rules.ts';
import { DRIVELINE_RULES, type DrivelineRuleId } from './driveline-rules.ts';
import { COMPARISON_RULES_DE } from './words/comparison-rules-de.ts';
import { CONDITION_RULES_DE } from './words/condition-rules-de.ts';
import { DRIVELINE_RULES_DE } from './words/driveline-rules-de.ts';

export type RuleId = MethodId | DrivelineRuleId | ConditionRuleId | ComparisonRuleId;

/** Of measuring, of the driveline, of conditions, of comparing: each list stands where its constants are used or told. */
export const RULES: Readonly<Record<RuleId, Method>> = {
  ...METHODS,
  ...DRIVELINE_RULES,
  ...CONDITION_RULES,
  ...COMPARISON_RULES,
};

/** The same in a reader's language. */
export const rulesIn = catalogue<Readonly<Record<RuleId, Method>>>({
  en: RULES,
  de: {
    ...methodsIn('de'),
    ...translateRules(DRIVELINE_RULES, DRIVELINE_RULES_DE, 'de'),
    ...translateRules(CONDITION_RULES, CONDITION_RULES_DE, 'de'),
    ...translateRules(COMPARISON_RULES, COMPARISON_RULES_DE, 'de'),
  },
});

/** Address of a rule's place on the methodology page, from the site's root. */
export const ruleAddress = (rule: RuleId): string => `/methodology/#${rule}`;

/** Digits that a constant is printed with at most. */
const MOST_DIGITS = 6;
/** The same of a speed that the code has in another unit than the readers. */
const CONVERTED_DIGITS = 3;

const TO = catalogue({ en: ' to ', de: ' bis ' });

/** `0.3048 m`, `0.02 to 0.8 s`, `30, 50, 60 km/h`: as the code has it, without the conversion's last bits. */
export function constantInWords({ values, unit, byName }: MethodConstant, readers: ForReaders): string {
  const { symbol, fromMps } = speedScale(readers);
  const convert = unit === 'km/h' && symbol !== unit && byName !== true;
  const digits = values.map(value => {
    const said = convert
      ? Number(fromMps(kmhToMps(value)).toPrecision(CONVERTED_DIGITS))
      : Number(value.toPrecision(MOST_DIGITS));
    return localiseDigits(String(said), readers);
  });
  return withUnit(
    digits.length === 2 ? digits.join(TO(readers)) : digits.join(', '),
    convert ? symbol : unit,
  );
}
