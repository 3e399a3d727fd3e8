/** The numbers an article says, each linked to its note under the article, and the notes as HTML. */
import type { Element, ElementContent } from 'hast';
import { escapeHtml } from '../escape-html.ts';
import type { OwnNumber } from './own-nodes.ts';
import type { FoundNumber, PublishedNumber, WorkingsLink } from './published-number.ts';
import { RULES, ruleAddress } from './rules.ts';

/** Heading of the notes, and the words by which the text's links name them. */
export const NOTES_HEADING = 'Numbers on this page';

/** Id of a note. */
export const noteId = (number: number): string => `number-${number}`;
/** Id of the place in the text that says a number for the n-th time, from 1. */
export const saidId = (number: number, time: number): string =>
  `said-${number}${time === 1 ? '' : `-${time}`}`;

/** Gives numbers their notes in the order in which the text says them. */
export class NumberNotes {
  readonly #byQuestion = new Map<string, { found: FoundNumber; number: number; times: number }>();

  /** What stands in the sentence; `question` is the same wherever the same thing is asked. */
  say(question: string, found: FoundNumber): OwnNumber {
    const entry = this.#byQuestion.get(question) ?? { found, number: this.#byQuestion.size + 1, times: 0 };
    entry.times += 1;
    this.#byQuestion.set(question, entry);
    return sentenceNode(found.text, entry.number, entry.times);
  }

  all(): readonly PublishedNumber[] {
    return [...this.#byQuestion].map(([question, { found, number, times }]) => ({
      ...found,
      question,
      number,
      times,
    }));
  }
}

/** The value is the link, so that it is large enough to hit; the mark is its note's number, spoken as such. */
function sentenceNode(text: string, number: number, time: number): OwnNumber {
  const children: ElementContent[] = [
    element('span', { className: ['value'] }, text),
    element('span', { className: ['mark'], ariaHidden: 'true' }, String(number)),
    element('span', { className: ['unseen'] }, `, note ${number}`),
  ];
  return {
    type: 'ownNumber',
    children: [],
    data: {
      hName: 'a',
      hProperties: { className: ['number'], id: saidId(number, time), href: `#${noteId(number)}` },
      hChildren: children,
    },
  };
}

function element(tagName: string, properties: Element['properties'], text: string): Element {
  return { type: 'element', tagName, properties, children: [{ type: 'text', value: text }] };
}

/**
 * The list of notes, without its heading; empty where the article says no number. Each leads to its rule on the
 * methodology page; `address` makes `/methodology/` an address from where the notes will stand.
 */
export function notesHtml(
  numbers: readonly PublishedNumber[],
  address: (path: string) => string = path => path,
): string {
  if (numbers.length === 0) return '';
  const items = numbers.map(({ number, heading, told, times, rule, workings }) => {
    const [first = '', ...rest] = told;
    const back = (time: number, mark: string): string => {
      const which = times === 1 ? '' : `, place ${time} of ${times}`;
      return `<a class="back" href="#${saidId(number, time)}" aria-label="Note ${number}: back to the text${which}">${mark}</a>`;
    };
    const further = Array.from({ length: times - 1 }, (_, index) => back(index + 2, `place ${index + 2}`));
    return (
      `<li id="${noteId(number)}" value="${number}">${back(1, String(number))}` +
      `<p><strong>${escapeHtml(heading)}</strong> ${escapeHtml(first)}` +
      (rest.length === 0 ? '' : ` <span class="further">${rest.map(escapeHtml).join(' ')}</span>`) +
      ` <a class="rule" href="${escapeHtml(address(ruleAddress(rule)))}">Rule: ${escapeHtml(RULES[rule].name.toLowerCase())}</a>` +
      workingsHtml(workings, address) +
      `${further.length === 0 ? '' : ` ${further.join(' ')}`}</p></li>`
    );
  });
  return `<ol class="number-notes">${items.join('')}</ol>`;
}

function workingsHtml(workings: readonly WorkingsLink[], address: (path: string) => string): string {
  if (workings.length === 0) return '';
  const links = workings.map(
    ({ label, path }) => `<a href="${escapeHtml(address(path))}">${escapeHtml(label)}</a>`,
  );
  return ` <span class="workings-links">Workings: ${links.join(', ')}</span>`;
}
