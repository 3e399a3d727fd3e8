/** One number said in an article, and what must stand beside it in the notes. */
import type { Place, Problem } from '../problem.ts';
import type { House, Publication, Result, TestResult } from '../result/result.ts';
import type { DirectiveName } from './own-directives.ts';
import type { RuleId } from './rules.ts';

/** A link to the workings of one attempt's figure. */
export interface WorkingsLink {
  /** `attempt 3`, with the test's day where it is another test's. */
  readonly label: string;
  readonly path: string;
}

export interface PublishedNumber {
  /** Number of its note, from 1 in the order of the text; the same question asked twice has one note. */
  readonly number: number;
  /** The directive's name and its attributes as JSON; the same wherever the same thing is asked. */
  readonly question: string;
  /** As it stands in the sentence: `8.41 s`. */
  readonly text: string;
  /** What it is a number of: `0–100 km/h`. */
  readonly heading: string;
  /** Whole sentences: rule, count, uncertainty, what was set aside, conditions. */
  readonly told: readonly string[];
  /** What was picked for it: one result, two for a difference, none for a count or a condition. */
  readonly results: readonly Result[];
  /** Where the workings of what was picked stand, from the site's root; one an attempt. */
  readonly workings: readonly WorkingsLink[];
  /** The rule it is read by; its note leads there. */
  readonly rule: RuleId;
  /** How often the text says it. */
  readonly times: number;
}

/** A number before it has its place among the notes. */
export type FoundNumber = Pick<
  PublishedNumber,
  'text' | 'heading' | 'told' | 'results' | 'workings' | 'rule'
>;

export interface Asked {
  readonly directive: DirectiveName;
  readonly attributes: Readonly<Record<string, string>>;
  readonly where: Place;
  readonly test: TestResult;
  readonly house: House;
  readonly publication: Publication;
}

/** Either the number, or everything that keeps it from being said. */
export type Answer = FoundNumber | { readonly problems: readonly Problem[] };

export const isFound = (answer: Answer): answer is FoundNumber => 'text' in answer;
