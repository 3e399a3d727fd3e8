/** How figures are picked, counted, rounded and set against each other: rules with the constants the code uses. */
import type { Method } from '../measurement/methods.ts';
import { FAIR_ATTEMPTS, FEW_ATTEMPTS } from '../result/fair-best.ts';
import { LEVEL, MOST_ATTEMPTS } from '../result/methods-compared.ts';

export type ComparisonRuleId =
  | 'kept'
  | 'best-and-median'
  | 'median-uncertainty'
  | 'rounding'
  | 'too-close'
  | 'launch-comparison'
  | 'alike';

const OWN = 'Our own rule';

/** Every rule of this kind, in the order a reader meets them. */
export const COMPARISON_RULES: Readonly<Record<ComparisonRuleId, Method>> = {
  kept: {
    name: 'Kept and set aside',
    rule:
      'Every attempt is one or the other. One that is set aside has a reason, written down before its time is looked ' +
      'at; it is still counted, listed and drawn, hollow. A run in the log that the notes do not tell of is set aside ' +
      'for that reason.',
    constants: [],
    source: OWN,
  },
  'best-and-median': {
    name: 'Best, median and how many',
    rule:
      'A best is printed with the number of attempts it is the best of and their median, because a best of many is ' +
      'helped by chance more than a best of few. Where methods are set side by side, the best that fewer attempts ' +
      'would have been expected to give stands beside it, from the attempts themselves: the mean best of every way to ' +
      'take so many of them.',
    constants: [
      { what: 'bests are made comparable at', values: [FAIR_ATTEMPTS], unit: 'attempts' },
      { what: 'which is a rough guide below', values: [FEW_ATTEMPTS], unit: 'attempts' },
    ],
    source: 'Hoeffding, Annals of Mathematical Statistics 19 (1948)',
  },
  'median-uncertainty': {
    name: 'Uncertainty of a best and of a median',
    rule:
      'That of a best is of timing that one attempt: not how near the car will come to it again. That of a median holds ' +
      'the scatter between attempts too: from six attempts on, the farther end of the interval by signs, which assumes ' +
      'no shape; below six no such interval reaches 95 %, and attempts are taken to scatter normally (Student’s t).',
    constants: [{ what: 'fewest attempts without an assumption', values: [FEW_ATTEMPTS], unit: 'attempts' }],
    source: 'JCGM 100:2008, 4.2 and G.3; sign test',
  },
  rounding: {
    name: 'Rounding',
    rule:
      'A number is rounded once, when it is printed, to the nearest, ties to the even digit. A value carries no more ' +
      'digits than its uncertainty allows: to the place of the first digit of the uncertainty, or of the second where ' +
      'the first is 1. An uncertainty is rounded up where rounding down would take more than a tenth of it away. ' +
      'Results for other programs are not rounded.',
    constants: [],
    source: 'ISO 80000-1, annex B, rule A; JCGM 100:2008, 7.2.6',
  },
  'too-close': {
    name: 'Too close to call',
    rule:
      'Two results whose difference does not exceed its own expanded uncertainty are not ranked. That of the difference ' +
      'is the root of the sum of the squares of both. What one receiver gets wrong alike in both is left in it, so that ' +
      'more is too close to call, never less.',
    constants: [],
    source: 'JCGM 100:2008, 5.1.2 and 5.2.2',
  },
  'launch-comparison': {
    name: 'Launch methods, or directions, of one day',
    rule:
      'One method, or direction, is called ahead only where chance alone would part the attempts so unevenly less often than the level, ' +
      'counted out exactly by ranks, and where the difference of medians exceeds what timing and scatter can tell. ' +
      'Where several pairs are compared the level is shared between those that could differ at all. So few attempts ' +
      'that nothing could be shown are “too few to tell”: three against three can never be told apart.',
    constants: [
      { what: 'level', values: [100 * LEVEL], unit: '%' },
      { what: 'counted out up to', values: [MOST_ATTEMPTS], unit: 'attempts of a method' },
    ],
    source:
      'Mann and Whitney (1947), exact; Hodges and Lehmann (1963); Holm (1979) over the pairs of Tarone (1990)',
  },
  alike: {
    name: 'Alike and not alike',
    rule:
      'Two tests are set against each other condition by condition: each is alike, not alike, or not known. Nothing ' +
      'makes up for another surface, start rule or temperature. Air density, wind and slope that are not alike stand ' +
      'against a ranking unless both tests can be restated and come out in the same order there; load, unless the ' +
      'difference is more than it can have made. Rate and number of attempts are in the uncertainty already, and told.',
    constants: [],
    source: OWN,
  },
};
