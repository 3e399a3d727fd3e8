/** Every rule behind the figures by its word, which is also its place on the methodology page. */
import { METHODS, type Method, type MethodConstant, type MethodId } from '../measurement/methods.ts';
import { localiseDigits, withUnit } from '../result/words.ts';
import { COMPARISON_RULES, type ComparisonRuleId } from './comparison-rules.ts';
import { CONDITION_RULES, type ConditionRuleId } from './condition-rules.ts';
import { DRIVELINE_RULES, type DrivelineRuleId } from './driveline-rules.ts';

export type RuleId = MethodId | DrivelineRuleId | ConditionRuleId | ComparisonRuleId;

/** Of measuring, of the driveline, of conditions, of comparing: each list stands where its constants are used or told. */
export const RULES: Readonly<Record<RuleId, Method>> = {
  ...METHODS,
  ...DRIVELINE_RULES,
  ...CONDITION_RULES,
  ...COMPARISON_RULES,
};

/** Address of a rule's place on the methodology page, from the site's root. */
export const ruleAddress = (rule: RuleId): string => `/methodology/#${rule}`;

/** Digits that a constant is printed with at most. */
const MOST_DIGITS = 6;

/** `0.3048 m`, `0.02 to 0.8 s`, `30, 50, 60 km/h`: as the code has it, without the conversion's last bits. */
export function constantInWords({ values, unit }: MethodConstant, language: string): string {
  const digits = values.map(value =>
    localiseDigits(String(Number(value.toPrecision(MOST_DIGITS))), language),
  );
  return withUnit(digits.length === 2 ? digits.join(' to ') : digits.join(', '), unit);
}
