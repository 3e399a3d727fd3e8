/**
 * Working out anew is held to the build itself: the same numbers to the last bit, from nothing but what is
 * published as JSON. The unit of speed is held to NIST SP 811, appendix B: 1 mi = 1609.344 m, exact.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { keyFigures } from '../../pipeline/article/key-figures.ts';
import { type PublishedTest, publishedTest } from '../../pipeline/recompute/published.ts';
import { differs, publishedChoices, recomputeTest, withChoices } from '../../pipeline/recompute/recompute.ts';
import { ownSpeedPlot } from '../../pipeline/recompute/speed-plot.ts';
import { ownKeyFigures, ownRestatedTable, unroundedFigures } from '../../pipeline/recompute/tables.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { restatedTable } from '../../pipeline/table/restated.ts';
import { demoPublication } from '../demo.ts';

let publication: Publication;
let sent: ReadonlyMap<TestResult, PublishedTest>;

beforeAll(async () => {
  publication = await demoPublication();
  sent = new Map(
    publication.tests.map(test => [
      test,
      // What a browser gets: text.
      JSON.parse(JSON.stringify(publishedTest(test, publication.house))) as PublishedTest,
    ]),
  );
}, 60_000);

describe('a test worked out anew', () => {
  it('has every figure of every attempt, measured and restated, to the last bit', () => {
    for (const [test, published] of sent) {
      const wanted = unroundedFigures(test);
      expect(wanted.length).toBeGreaterThan(20);
      expect(wanted.some(({ restated }) => restated !== undefined)).toBe(true);
      expect(unroundedFigures(recomputeTest(published)), test.id).toStrictEqual(wanted);
    }
  });

  it('prints the same key figures and the same restated table under the same choices', () => {
    for (const [test, published] of sent) {
      const own = withChoices(recomputeTest(published), published.house, publishedChoices(published));
      expect(keyFigures(own.test, own.house), test.id).toStrictEqual(keyFigures(test, publication.house));
      expect(restatedTable(own.test, own.house), test.id).toStrictEqual(
        restatedTable(test, publication.house),
      );
    }
  });

  it.each(['en-GB', 'de-DE'])('calls restated figures published only where they are, in %s', language => {
    for (const [, published] of sent) {
      const choices = publishedChoices(published);
      const spoken = { ...published.house, language };
      const { test, house } = withChoices(recomputeTest(published), spoken, choices);
      expect(ownRestatedTable(test, house, false)).toStrictEqual(restatedTable(test, house));
      const [first, ...rest] = ownRestatedTable(test, house, true).notes;
      const [says, ...others] = restatedTable(test, house).notes;
      expect(says).toMatch(/^(The measured figures are the published ones|Veröffentlicht werden)/);
      expect(first).toMatch(/your own choices, not the published|eigenen Wahl, nicht die veröffentlichten/);
      expect(rest).toEqual(others);
    }
  });

  it('counts the attempts that the reader counts, and no others', () => {
    for (const [, published] of sent) {
      const choices = publishedChoices(published);
      const anew = recomputeTest(published);
      const before = withChoices(anew, published.house, choices);
      const [lead] = keyFigures(before.test, before.house);
      const bestId = lead!.results[0]!.attemptIds[0]!;
      const counted = new Set(choices.counted);
      counted.delete(bestId);
      const without = { ...choices, counted };
      expect(differs(without, choices)).toBe(true);
      const after = withChoices(anew, published.house, without);
      const result = pickResult(after.test, after.house, { measure: lead!.measure })!;
      expect(result.n).toBe(lead!.n - 1);
      expect(result.attemptIds).not.toContain(bestId);
    }
  });

  it('counts an attempt that the publication set aside', () => {
    const [, published] = [...sent].find(([test]) =>
      test.attempts.some(
        ({ setAside, measurement }) => setAside !== undefined && measurement.speedSplits.length > 0,
      ),
    )!;
    const choices = publishedChoices(published);
    const all = { ...choices, counted: new Set(published.attempts.map(({ id }) => id)) };
    const own = withChoices(recomputeTest(published), published.house, all);
    expect(own.test.attempts.every(({ setAside }) => setAside === undefined)).toBe(true);
    expect(differs(all, choices)).toBe(true);
  });

  it('is the same test in other units, which is no difference', () => {
    const [, published] = [...sent][0]!;
    const choices = publishedChoices(published);
    const miles = { ...choices, speedUnit: 'mph' as const };
    expect(differs(miles, choices)).toBe(false);
    const anew = recomputeTest(published);
    const top = [choices, miles].map(each => {
      const own = withChoices(anew, published.house, each);
      const result = pickResult(own.test, own.house, { measure: 'top-speed' })!;
      return { result, printed: printResult(result, own.house) };
    });
    expect(top[1]!.result).toStrictEqual(top[0]!.result);
    expect(top.map(({ printed }) => printed.unit)).toEqual(['km/h', 'mph']);
    const inMiles = (top[0]!.result.value * 3600) / 1609.344;
    expect(Math.abs(Number(top[1]!.printed.value) - inMiles)).toBeLessThanOrEqual(0.5);
    expect(top[1]!.printed.uncertainty).toContain('mph');
  });

  it('says the measured figure beside the restated one, never instead of it', () => {
    const [, published] = [...sent][0]!;
    const own = withChoices(recomputeTest(published), published.house, publishedChoices(published));
    const plain = ownKeyFigures(own.test, own.house, false);
    const beside = ownKeyFigures(own.test, own.house, true);
    expect(beside.columns.length).toBe(plain.columns.length + 1);
    for (const [index, row] of beside.rows.entries()) {
      expect(row.filter((_, column) => column !== 2)).toStrictEqual(plain.rows[index]);
    }
  });

  it('holds no position and nothing a log says of its driver', () => {
    for (const [, published] of sent) {
      expect(JSON.stringify(published)).not.toMatch(/latitude|longitude|easting|northing|channels/i);
    }
  });
});

describe('the picture of the starts that count', () => {
  it('draws each counted start once, and none where none count', () => {
    const [, published] = [...sent][0]!;
    const choices = publishedChoices(published);
    const anew = recomputeTest(published);
    const own = withChoices(anew, published.house, choices);
    const starts = own.test.attempts.filter(
      ({ setAside, measurement }) => setAside === undefined && measurement.start !== undefined,
    );
    expect(ownSpeedPlot(own.test, own.house)!.match(/<polyline/g)).toHaveLength(starts.length);
    const none = withChoices(anew, published.house, { ...choices, counted: new Set() });
    expect(ownSpeedPlot(none.test, none.house)).toBeUndefined();
  });
});
