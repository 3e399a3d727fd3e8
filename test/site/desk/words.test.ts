import { describe, expect, it } from 'vitest';
import { german } from '../../../site/desk/words-de.ts';
import { english } from '../../../site/desk/words-en.ts';

type Leaf = readonly [key: string, text: string];

/** Every text of a catalogue; functions are asked with numbers, or with words where they take words. */
function leaves(of: object, under = ''): Leaf[] {
  return Object.entries(of).flatMap(([key, value]): Leaf[] => {
    const name = `${under}${key}`;
    if (typeof value === 'string') return [[name, value]];
    if (typeof value === 'function') return [[name, String(value.length)]];
    return leaves(value as object, `${name}.`);
  });
}

describe('the desk’s words', () => {
  it('have the same keys and take the same facts in both languages', () => {
    const arities = (of: object) =>
      leaves(of).map(([key, text]) => (/^\d$/.test(text) ? `${key} ${text}` : key));
    expect(arities(german)).toEqual(arities(english));
  });

  it('are translated: no sentence is the same in both', () => {
    const other = new Map(leaves(german));
    const same = leaves(english).filter(([key, text]) => text.includes(' ') && other.get(key) === text);
    expect(same).toEqual([]);
  });

  it('never call anything safe', () => {
    const all = [...leaves(english), ...leaves(german)].map(([, text]) => text).join('\n');
    expect(all).not.toMatch(/\bsafe(ly|ty)?\b|\bsicher(e[rsnm]?|heit)?\b/i);
  });
});
