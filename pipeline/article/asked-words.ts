/** Reads the words of a directive's attributes and says which of them name nothing. */

import { nearMiss } from '../content/near-miss.ts';
import { START_RULES } from '../content/schema.ts';
import type { Problem } from '../problem.ts';
import { missingAttribute, unknownAttribute, unknownWord } from '../problems/article.ts';
import type { TestResult } from '../result/result.ts';
import type { StartRule } from '../run/run.ts';
import type { Asked } from './published-number.ts';

/** Collects the problems of one directive while its words are read. */
export class AskedWords {
  readonly problems: Problem[] = [];
  readonly asked: Asked;

  constructor(asked: Asked) {
    this.asked = asked;
  }

  /** Tells of attributes that are none of `known`. */
  allow(known: readonly string[]): void {
    const { attributes, where, directive } = this.asked;
    for (const name of Object.keys(attributes)) {
      if (known.includes(name)) continue;
      this.problems.push(unknownAttribute(where, directive, name, known, nearMiss(name, known)));
    }
  }

  /** The word of an attribute, if it is one of `known`; absent attributes are undefined and no problem. */
  one<Word extends string>(attribute: string, kind: string, known: readonly Word[]): Word | undefined {
    const word = this.asked.attributes[attribute]?.trim();
    return word === undefined ? undefined : this.#known(attribute, kind, word, known);
  }

  /** As `one`, and told where absent. `such` is an example. */
  must<Word extends string>(
    attribute: string,
    kind: string,
    known: readonly Word[],
    such: string,
  ): Word | undefined {
    if (this.asked.attributes[attribute] === undefined) {
      this.problems.push(missingAttribute(this.asked.where, this.asked.directive, attribute, such));
    }
    return this.one(attribute, kind, known);
  }

  /** Words between spaces; those that name nothing are told and left out. */
  several<Word extends string>(attribute: string, kind: string, known: readonly Word[]): Word[] {
    const words = (this.asked.attributes[attribute] ?? '').split(/\s+/).filter(word => word !== '');
    return words.flatMap(word => this.#known(attribute, kind, word, known) ?? []);
  }

  #known<Word extends string>(
    attribute: string,
    kind: string,
    word: string,
    known: readonly Word[],
  ): Word | undefined {
    if ((known as readonly string[]).includes(word)) return word as Word;
    this.problems.push(
      unknownWord(this.asked.where, { attribute, kind, word }, known, nearMiss(word, known)),
    );
    return undefined;
  }

  /** The test a number is taken from: the article's own unless another is named. */
  test(): TestResult {
    const { publication, test } = this.asked;
    const id = this.one(
      'test',
      'test',
      publication.tests.map(other => other.id),
    );
    return publication.tests.find(other => other.id === id) ?? test;
  }

  launches(): readonly string[] {
    return this.asked.house.launch_methods.map(({ id }) => id);
  }

  startRule(): StartRule {
    return this.one('start', 'start rule', START_RULES) ?? this.asked.house.headline_start_rule;
  }
}

export const directionsOf = (test: TestResult): readonly string[] => test.road.directions.map(({ id }) => id);
