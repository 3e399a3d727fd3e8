/** Speed over time of the starts a reader counts: a small picture drawn without the page's chart library. */
import { localiseDigits } from '../digits.ts';
import { escapeHtml } from '../escape-html.ts';
import { standingStartSeries } from '../figure/run-series.ts';
import { roundStep, stepDecimals, ticksEvery, upTo } from '../figure/ticks.ts';
import { COLOUR } from '../look.ts';
import { fromRest, headlineMeasure, isKept } from '../result/headline.ts';
import { bestAttempt } from '../result/pick.ts';
import type { TestResult } from '../result/result.ts';
import { startRuleBrief } from '../result/words.ts';
import type { OwnHouse } from './recompute.ts';
import { recomputeWords } from './words.ts';

const WIDTH = 640;
const HEIGHT = 360;
const LEFT = 46;
const RIGHT = 14;
const TOP = 26;
const BOTTOM = 44;
const TEXT_PX = 14;

/** An SVG with a title and a description of its own; undefined where no counted attempt began from rest. */
export function ownSpeedPlot(test: TestResult, house: OwnHouse): string | undefined {
  const words = recomputeWords(house);
  const drawn = test.attempts
    .filter(attempt => isKept(attempt) && fromRest(attempt))
    .flatMap(attempt => {
      const series = standingStartSeries(attempt, house.headline_start_rule, house);
      return series === undefined ? [] : [{ attempt, x: series.timeS, y: series.speed }];
    });
  if (drawn.length === 0) return undefined;
  const measure = headlineMeasure(test, house);
  const best = measure && bestAttempt(test, house, { measure });
  const mostX = Math.max(...drawn.flatMap(({ x }) => x));
  const mostY = Math.max(...drawn.flatMap(({ y }) => y));
  const stepX = roundStep(mostX, 8);
  const stepY = roundStep(mostY, 7);
  const endX = upTo(mostX, stepX);
  const endY = upTo(mostY, stepY);
  const atX = (x: number): string => (LEFT + (x / endX) * (WIDTH - LEFT - RIGHT)).toFixed(1);
  const atY = (y: number): string => (HEIGHT - BOTTOM - (y / endY) * (HEIGHT - TOP - BOTTOM)).toFixed(1);
  const print = (value: number, step: number): string =>
    localiseDigits(value.toFixed(stepDecimals(step)), house);
  const text = (x: number | string, y: number | string, anchor: string, what: string): string =>
    `<text x="${x}" y="${y}" text-anchor="${anchor}" font-size="${TEXT_PX}" fill="${COLOUR.muted}">${escapeHtml(what)}</text>`;
  const rules = ticksEvery(stepY, 0, endY).map(
    y =>
      `<line x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${atY(y)}" y2="${atY(y)}" stroke="${y === 0 ? COLOUR.ink : COLOUR.hairline}"/>${text(LEFT - 7, Number(atY(y)) + 5, 'end', print(y, stepY))}`,
  );
  const ticks = ticksEvery(stepX, 0, endX).map(x =>
    text(atX(x), HEIGHT - BOTTOM + 19, 'middle', print(x, stepX)),
  );
  const ordered = [...drawn].sort(
    (a, b) => Number(a.attempt.id === best?.id) - Number(b.attempt.id === best?.id),
  );
  const lines = ordered.map(({ attempt, x, y }) => {
    const isBest = attempt.id === best?.id;
    // With the other rule the clock shows less than 0 before its start; the axis begins there.
    const points = x.flatMap((time, index) => (time < 0 ? [] : [`${atX(time)},${atY(y[index]!)}`]));
    return `<polyline points="${points.join(' ')}" fill="none" stroke="${isBest ? COLOUR.accent : COLOUR.muted}" stroke-width="${isBest ? 2.6 : 1}" stroke-linejoin="round"><title>${escapeHtml(words.attemptLabel(attempt.number))}</title></polyline>`;
  });
  const title = drawn.length === 1 ? words.plotOne : words.plotTitle(drawn.length);
  const description = best === undefined ? title : `${title}. ${words.plotBest(best.number)}`;
  return [
    `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${escapeHtml(description)}" xmlns="http://www.w3.org/2000/svg">`,
    text(LEFT - 7, 14, 'start', words.speed(house.speedUnit)),
    ...rules,
    ...ticks,
    ...lines,
    text(WIDTH - RIGHT, HEIGHT - 6, 'end', words.time(startRuleBrief(house.headline_start_rule, house))),
    '</svg>',
  ].join('');
}
