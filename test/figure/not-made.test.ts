import { describe, expect, it } from 'vitest';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import type { House } from '../../pipeline/result/result.ts';
import { TABLES } from '../../pipeline/table/tables.ts';
import { HOUSE, TEST } from '../overlay/fixture.ts';

const german: House = { ...HOUSE, language: 'de-DE' };
const rule = { startRule: HOUSE.headline_start_rule };
const reasons = (house: House, attempts?: readonly string[], of = TEST): readonly string[] =>
  Object.values(FIGURES).flatMap(figure => {
    const made = figure.make(of, house, { ...rule, ...(attempts === undefined ? {} : { attempts }) }, []);
    return 'reason' in made ? [made.reason] : [];
  });

describe('what a figure is, and why it is not drawn', () => {
  it('is told in the language of the publication', () => {
    for (const makers of [FIGURES, OVERLAYS, TABLES]) {
      for (const [kind, { describes }] of Object.entries(makers)) {
        const [english, inGerman] = [describes('en-GB'), describes('de-DE')];
        expect(inGerman, kind).toMatch(/^\p{Lu}.*\.$/u);
        expect(inGerman, kind).not.toMatch(/\b(?:the|and|of|with|which|what)\b/i);
        expect(english, kind).toMatch(/\b(?:the|and|of|with|what)\b/i);
      }
    }
    const nobody = { ...TEST, attempts: [] };
    for (const asked of [undefined, ['a99'], ['best:no-such'], ['median', 'best', 'a01', 'a02']]) {
      for (const of of [TEST, nobody]) {
        const [english, inGerman] = [reasons(HOUSE, asked, of), reasons(german, asked, of)];
        expect(inGerman).toHaveLength(english.length);
        for (const reason of inGerman)
          expect(reason).not.toMatch(/\b(?:the|attempt|test reached|two|were)\b/i);
      }
    }
    expect(reasons(HOUSE, ['a99'])).toContainEqual(expect.stringMatching(/^There is no attempt ‘a99’/));
    expect(reasons(german, ['a99'])).toContainEqual(expect.stringMatching(/keinen Versuch „a99“/));
  });

  it('names the unit of the publication’s speeds', () => {
    const none = { ...TEST, attempts: [] };
    expect(reasons(HOUSE, undefined, none)).toContain(
      'No kept attempt began from rest and reached 30\u00a0km/h.',
    );
    expect(reasons({ ...HOUSE, units: 'mph' }, undefined, none)).toContain(
      'No kept attempt began from rest and reached 30\u00a0mph.',
    );
  });
});
