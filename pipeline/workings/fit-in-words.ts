/** A fit as a small table of its parameters, the formula they belong in, and one reading to try it on. */
import { localiseDigits } from '../digits.ts';
import { withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import { speedScale } from '../speed-unit.ts';
import type { Table, TableCell } from '../table/table.ts';
import type { CrossingWorkings } from './crossing.ts';
import type { WorkingDigits } from './digits.ts';
import { curveMps, type FitWorkings } from './fit.ts';
import type { TopWorkings } from './greatest.ts';
import type { Block } from './steps-in-words.ts';
import { workingsWords } from './words.ts';

/** Decimals of parameters: enough for the last printed digit of what follows from them. */
const DECIMALS = 6;
/** Manners of a smaller share are not named. */
const LEAST_SHARE = 0.005;

type Row = readonly [name: string, symbol: string, value: string];

function parameterTable(id: string, caption: string, rows: readonly Row[], digits: WorkingDigits): Table {
  const words = workingsWords(digits.language);
  return {
    id,
    caption,
    columns: [
      { label: words.parameter, align: 'start' },
      { label: words.symbol, align: 'start' },
      { label: words.value, align: 'end' },
    ],
    rows: rows.map(([name, symbol, value]): readonly TableCell[] => [
      { text: name, header: true },
      { text: symbol },
      { text: value },
    ]),
    notes: [],
  };
}

/** Digits of a parameter, those of its unit. */
const parameter = (value: number, unit: string, { language }: WorkingDigits): string => {
  const text = localiseDigits(roundToDecimals(value, DECIMALS), language);
  return unit === '' ? text : withUnit(text, unit);
};

/** Start or stop: the likeliest answer, its curve, and the average over all answers that is published. */
export function fitBlocks(
  of: 'start' | 'stop',
  fit: FitWorkings,
  publishedS: number,
  digits: WorkingDigits,
): Block[] {
  const words = workingsWords(digits.language);
  const { symbol, fromMps } = speedScale(digits.readers);
  const { onset, restS, creepMps, from, to, example } = fit;
  const { likeliest, manners, answers, rampS, rampSdS } = onset;
  const { rise, accelerationMps2, jerkMps3, snapMps4 } = likeliest;
  const said = words.fit[of];
  const print = (value: number, unit = ''): string => parameter(value, unit, digits);
  const rows: Row[] = [
    [said.rest, 'T', print(restS, 's')],
    [said.rise, 'r', print(likeliest.rampS, 's')],
    [said.full, 'a', print(accelerationMps2, 'm/s²')],
    [words.fit.change, 'b', print(jerkMps3, 'm/s³')],
    [words.fit.changeOfThat, 'c', print(snapMps4, 'm/s⁴')],
    ...rise.map((share, k): Row => [words.fit.share(k), 'fghj'[k]!, print(share)]),
    ...(creepMps > 0 ? [[words.fit.creep, 'w', print(fromMps(creepMps), symbol)] as const] : []),
  ];
  const sinceS = onset.direction * (example.timeS - restS);
  const named = manners
    .filter(({ share }) => share >= LEAST_SHARE)
    .map(({ name, share }) => [words.manners[name], digits.percent(share)].join(' '));
  return [
    parameterTable(
      `fit-${of}`,
      said.caption(answers, from.line, to.line, words.manners[likeliest.manner]),
      rows,
      digits,
    ),
    said.formula(creepMps > 0, words.divisors[symbol], symbol),
    words.fit.tried(
      example.line,
      sinceS < likeliest.rampS
        ? `u = ${print(sinceS / likeliest.rampS)}`
        : `s = ${print(sinceS - likeliest.rampS, 's')}`,
      digits.of(curveMps(fit, example.timeS), 'speed'),
      digits.of(example.speedMps, 'speed'),
    ),
    words.fit.average(
      answers,
      digits.of(publishedS, 'time'),
      digits.signed(publishedS - restS, 'time'),
      named.join(', '),
      digits.of(rampS, 'time'),
      digits.of(rampSdS, 'time'),
    ),
  ];
}

/** A parabola through readings, and where it passes the speed. `name`: what is passed, such as `100.000 km/h`. */
export function parabolaBlocks(id: string, crossing: CrossingWorkings, digits: WorkingDigits): Block[] {
  const { parabola, targetMps, timeS } = crossing;
  if (parabola === undefined) return [];
  const { symbol, fromMps } = speedScale(digits.readers);
  const words = workingsWords(digits.language);
  const print = (value: number, unit = ''): string => parameter(value, unit, digits);
  const [a = 0, b = 0, c = 0] = parabola.coefficients.map(fromMps);
  const sinceS = timeS - parabola.originS;
  // Of the two places where a parabola passes a speed, the one where it rises or falls as the car does.
  const sign = b + 2 * c * sinceS < 0 ? '−' : '+';
  return [
    parameterTable(
      `fit-${id}`,
      words.parabolaCaption(digits.of(targetMps, 'speed'), parabola.from.line, parabola.to.line),
      [
        [words.parabolaOrigin, 'T', print(parabola.originS, 's')],
        [words.parabolaTerm(0), 'a', print(a, symbol)],
        [words.parabolaTerm(1), 'b', print(b, `${symbol}/s`)],
        [words.parabolaTerm(2), 'c', print(c, `${symbol}/s²`)],
      ],
      digits,
    ),
    words.parabolaFormula(
      symbol,
      print(fromMps(targetMps)),
      `2 (v − a) ÷ (b ${sign} ${words.rootOf} (b² + 4 c (v − a)))`,
      print(sinceS, 's'),
      digits.of(timeS, 'time'),
    ),
  ];
}

/** Brakes that come on around a speed: the likeliest answer, where it passes the speed, and the average published. */
export function brakesBlocks(id: string, crossing: CrossingWorkings, digits: WorkingDigits): Block[] {
  const { brakes, targetMps, timeS } = crossing;
  if (brakes === undefined) return [];
  const { symbol, fromMps } = speedScale(digits.readers);
  const words = workingsWords(digits.language);
  const print = (value: number, unit = ''): string => parameter(value, unit, digits);
  const { answers, onsetS, riseS, levelMps, slopeMps2, fullMps2, passedS, from, to } = brakes;
  const sinceS = passedS - onsetS;
  const root =
    sinceS < riseS ? `(b + ${words.rootOf} (b² + 2 d (a − v) ÷ r)) × r ÷ d` : '(a − v + d r ÷ 2) ÷ (d − b)';
  return [
    parameterTable(
      `fit-${id}`,
      words.brakes.caption(digits.of(targetMps, 'speed'), answers, from.line, to.line),
      [
        [words.brakes.onset, 'T', print(onsetS, 's')],
        [words.brakes.rise, 'r', print(riseS, 's')],
        [words.brakes.level, 'a', print(fromMps(levelMps), symbol)],
        [words.brakes.slope, 'b', print(fromMps(slopeMps2), `${symbol}/s`)],
        [words.brakes.full, 'd', print(fromMps(fullMps2), `${symbol}/s`)],
      ],
      digits,
    ),
    words.brakes.formula(symbol),
    sinceS > 0
      ? words.brakes.passes(print(fromMps(targetMps)), root, print(sinceS, 's'), digits.of(passedS, 'time'))
      : words.brakes.passedBefore(digits.of(targetMps, 'speed')),
    words.brakes.average(answers, digits.of(timeS, 'time'), digits.signed(timeS - passedS, 'time')),
  ];
}

/** The likeliest curve around the highest reading, how high it is, and the average published. */
export function topBlocks(id: string, { fit, publishedMps }: TopWorkings, digits: WorkingDigits): Block[] {
  if (fit === undefined) return [];
  const { symbol, fromMps } = speedScale(digits.readers);
  const words = workingsWords(digits.language).highest;
  const print = (value: number, unit = ''): string => parameter(value, unit, digits);
  const { shape, answers, originS, coefficients, topS, topMps, from, to } = fit;
  const [a, b, c] = coefficients.map(fromMps) as [number, number, number];
  return [
    parameterTable(
      `fit-${id}`,
      words.caption(answers, from.line, to.line),
      [
        [words.origin[shape], 'T', print(originS, 's')],
        [words.level, 'a', print(a, symbol)],
        [words.second[shape], 'b', print(b, `${symbol}/s`)],
        [words.third[shape], 'c', print(c, shape === 'point' ? `${symbol}/s` : `${symbol}/s²`)],
      ],
      digits,
    ),
    words.formula[shape](symbol),
    words.top(print(topS, 's'), digits.of(topMps, 'speed')),
    words.average(answers, digits.of(publishedMps, 'speed'), digits.signed(publishedMps - topMps, 'speed')),
  ];
}
