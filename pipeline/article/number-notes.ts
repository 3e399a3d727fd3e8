/** The numbers an article says, each linked to its note under the article, and the notes as HTML. */
import type { Element, ElementContent } from 'hast';
import { escapeHtml } from '../escape-html.ts';
import { catalogue, type Spoken } from '../language.ts';
import type { OwnNumber } from './own-nodes.ts';
import type { FoundNumber, PublishedNumber, WorkingsLink } from './published-number.ts';
import { ruleAddress, rulesIn } from './rules.ts';

const WORDS = catalogue({
  en: {
    heading: 'Numbers on this page',
    note: (number: number) => `, note ${number}`,
    back: (number: number) => `Note ${number}: back to the text`,
    place: (time: number, of: number) => `, place ${time} of ${of}`,
    placeMark: (time: number) => `place ${time}`,
    rule: (name: string) => `Rule: ${name.toLowerCase()}`,
    workings: 'Workings:',
  },
  de: {
    heading: 'Zahlen auf dieser Seite',
    note: number => `, Anmerkung ${number}`,
    back: number => `Anmerkung ${number}: zurück zum Text`,
    place: (time, of) => `, Stelle ${time} von ${of}`,
    placeMark: time => `Stelle ${time}`,
    rule: name => `Regel: ${name}`,
    workings: 'Rechenweg:',
  },
});

/** Heading of the notes, and the words by which the text's links name them. */
export const notesHeading = (spoken: Spoken): string => WORDS(spoken).heading;

/** Id of a note. */
export const noteId = (number: number): string => `number-${number}`;
/** Id of the place in the text that says a number for the n-th time, from 1. */
export const saidId = (number: number, time: number): string =>
  `said-${number}${time === 1 ? '' : `-${time}`}`;

/** Gives numbers their notes in the order in which the text says them. */
export class NumberNotes {
  readonly #spoken: Spoken;
  readonly #byQuestion = new Map<string, { found: FoundNumber; number: number; times: number }>();

  constructor(spoken: Spoken) {
    this.#spoken = spoken;
  }

  /** What stands in the sentence; `question` is the same wherever the same thing is asked. */
  say(question: string, found: FoundNumber): OwnNumber {
    const entry = this.#byQuestion.get(question) ?? { found, number: this.#byQuestion.size + 1, times: 0 };
    entry.times += 1;
    this.#byQuestion.set(question, entry);
    return sentenceNode(found.text, entry.number, entry.times, this.#spoken);
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
function sentenceNode(text: string, number: number, time: number, spoken: Spoken): OwnNumber {
  const children: ElementContent[] = [
    element('span', { className: ['value'] }, text),
    element('span', { className: ['mark'], ariaHidden: 'true' }, String(number)),
    element('span', { className: ['unseen'] }, WORDS(spoken).note(number)),
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
  spoken: Spoken,
  address: (path: string) => string = path => path,
): string {
  if (numbers.length === 0) return '';
  const words = WORDS(spoken);
  const rules = rulesIn(spoken);
  const items = numbers.map(({ number, heading, told, times, rule, workings }) => {
    const [first = '', ...rest] = told;
    const back = (time: number, mark: string): string => {
      const which = times === 1 ? '' : words.place(time, times);
      return `<a class="back" href="#${saidId(number, time)}" aria-label="${words.back(number)}${which}">${mark}</a>`;
    };
    const further = Array.from({ length: times - 1 }, (_, index) =>
      back(index + 2, words.placeMark(index + 2)),
    );
    return (
      `<li id="${noteId(number)}" value="${number}">${back(1, String(number))}` +
      `<p><strong>${escapeHtml(heading)}</strong> ${escapeHtml(first)}` +
      (rest.length === 0 ? '' : ` <span class="further">${rest.map(escapeHtml).join(' ')}</span>`) +
      ` <a class="rule" href="${escapeHtml(address(ruleAddress(rule)))}">${escapeHtml(words.rule(rules[rule].name))}</a>` +
      workingsHtml(workings, address, words.workings) +
      `${further.length === 0 ? '' : ` ${further.join(' ')}`}</p></li>`
    );
  });
  return `<ol class="number-notes">${items.join('')}</ol>`;
}

function workingsHtml(
  workings: readonly WorkingsLink[],
  address: (path: string) => string,
  label: string,
): string {
  if (workings.length === 0) return '';
  const links = workings.map(
    each => `<a href="${escapeHtml(address(each.path))}">${escapeHtml(each.label)}</a>`,
  );
  return ` <span class="workings-links">${label} ${links.join(', ')}</span>`;
}
