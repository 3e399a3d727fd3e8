import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileSpec } from '../../pipeline/figure/dataflow.ts';
import {
  CROP_LAYOUTS,
  CROP_SIZE,
  FIGURE_LAYOUTS,
  FIGURE_WIDTH_PX,
  type FigureChoice,
  type FigureLayout,
  isCrop,
  type MadeFigure,
} from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES, type FigureKind } from '../../pipeline/figure/figures.ts';
import { renderFigureAvif, renderFigurePng, renderFigureWebp } from '../../pipeline/figure/formats.ts';
import { holdsText, textStyle } from '../../pipeline/figure/outline-text.ts';
import { paperOf } from '../../pipeline/figure/paper.ts';
import { drawFigure, renderCrop, renderFigure } from '../../pipeline/figure/render.ts';
import { parseSvg } from '../../pipeline/figure/svg-tree.ts';
import { plotWidthPx } from '../../pipeline/figure/theme.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { FACE, PALETTES, type Paper } from '../../pipeline/look.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { FIXTURE_PLAN, houseFixture, testFixture } from '../result/fixture.ts';
import { overlaps, plotBoxes } from './scene.ts';

const LAYOUTS = FIGURE_LAYOUTS;
const CHOICE: FigureChoice = { startRule: 'first-movement' };
const ALL = FIGURE_KINDS.flatMap(kind => LAYOUTS.map(layout => [kind, layout] as const));

/** A wet day of another car, for figures that set a test beside others. */
const OTHER: TestResult = (() => {
  const test = testFixture();
  return {
    ...test,
    id: 'other-day',
    car: { ...test.car, id: 'teasel', name: 'Wendover Teasel', short_name: 'Teasel' },
    attempts: test.attempts.map(one => ({ ...one, conditions: { ...one.conditions, surface: 'wet' } })),
  };
})();

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

const FIXTURE = testFixture();

function made(
  kind: FigureKind,
  test: TestResult = FIXTURE,
  choice: FigureChoice = CHOICE,
  house: House = houseFixture(),
): MadeFigure {
  const figure = FIGURES[kind].make(test, house, choice, [OTHER]);
  if ('reason' in figure) throw new Error(figure.reason);
  return figure;
}

function reason(kind: FigureKind, test: TestResult, choice: FigureChoice = CHOICE): string {
  const figure = FIGURES[kind].make(test, houseFixture(), choice, [OTHER]);
  return 'reason' in figure ? figure.reason : `made: ${figure.title}`;
}

/** Each figure of the fixture drawn once in each layout, and its plot laid out once, for all that look at them. */
const once = <T>(work: (kind: FigureKind, layout: FigureLayout) => Promise<T>): typeof work => {
  const known = new Map<string, Promise<T>>();
  return (kind, layout) => {
    const key = `${kind} ${layout}`;
    const found = known.get(key) ?? work(kind, layout);
    known.set(key, found);
    return found;
  };
};
const drawn = once((kind, layout) => drawFigure(made(kind), layout, lettering));
const boxesOf = once((kind, layout) => plotBoxes(made(kind).spec[layout], layout, lettering));

/** Long data by count and digest, so that a snapshot is exact and still readable. */
const withDigests = (spec: unknown): unknown =>
  JSON.parse(JSON.stringify(spec), (key, value) =>
    key === 'values' && Array.isArray(value) && value.length > 12
      ? `${value.length} values, sha256 ${createHash('sha256').update(JSON.stringify(value)).digest('hex')}`
      : value,
  );

describe('compiled specifications', () => {
  it.each(ALL.filter(([, layout]) => !isCrop(layout)))(
    '%s, %s, compiles without a complaint to the same vega specification as ever',
    async (kind, layout) => {
      const complaints: string[] = [];
      const spec = compileSpec(made(kind).spec[layout], layout, message => complaints.push(message));
      expect(complaints).toEqual([]);
      await expect(`${JSON.stringify(withDigests(spec), null, 1)}\n`).toMatchFileSnapshot(
        `./specs/${kind}-${layout}.snap`,
      );
    },
  );

  it.each(FIGURE_KINDS)('%s is made alike every time and leaves the test as it was', kind => {
    const test = testFixture();
    const before = JSON.stringify(test.content) + test.attempts.length;
    expect(JSON.stringify(made(kind, test))).toBe(JSON.stringify(made(kind, test)));
    expect(JSON.stringify(test.content) + test.attempts.length).toBe(before);
  });

  it('draws layouts of their own, not one scaled: axes, sizes of type and heights differ', () => {
    for (const kind of FIGURE_KINDS) {
      const { spec } = made(kind);
      const [narrow, wide, print] = (['narrow', 'wide', 'print'] as const).map(layout =>
        compileSpec(spec[layout], layout),
      );
      // What is drawn, and where, in the plot's own units or px.
      expect([narrow!.data, narrow!.axes], kind).not.toEqual([wide!.data, wide!.axes]);
      expect(print!.marks, kind).not.toEqual(wide!.marks);
      expect(Number(print!.height) / Number(wide!.height)).not.toBeCloseTo(
        plotWidthPx('print') / plotWidthPx('wide'),
        2,
      );
    }
  });
});

describe('pictures', () => {
  it.each(ALL)('%s, %s, has its width, real text, and under 60 kB', async (kind, layout) => {
    const { on, ...size } = await drawn(kind, layout);
    const picture = { ...size, ...on(paperOf(layout)) };
    expect(picture.widthPx).toBe(FIGURE_WIDTH_PX[layout]);
    expect(picture.svg.length).toBeLessThan(60_000);
    expect(holdsText(parseSvg(picture.svg))).toBe(true);
    expect(holdsText(parseSvg(picture.svgOutlined))).toBe(false);
    const root = parseSvg(picture.svg).attributes;
    expect(root.viewBox).toBe(`0 0 ${picture.widthPx} ${picture.heightPx}`);
    expect(root['aria-label']).toBe(made(kind).altText);
    // Names would clash with those of the next figure on the same page.
    expect(picture.svg).not.toMatch(/ id="|url\(#/);
  });

  it.each(['speed-over-time', 'runs-of-the-day'] as const)('%s looks as ever', async kind => {
    const { svg } = await renderFigure(made(kind), 'narrow', lettering);
    await expect(`${svg.replaceAll('><', '>\n<')}\n`).toMatchFileSnapshot(`./pictures/${kind}-narrow.svg`);
  });

  it('come out in the same bytes twice, PNG included', async () => {
    const first = await renderFigure(made('braking'), 'wide', lettering);
    const second = await renderFigure(made('braking'), 'wide', lettering);
    expect(second.svg === first.svg).toBe(true);
    expect(second.svgOutlined === first.svgOutlined).toBe(true);
    const [a, b] = await Promise.all([1, 1].map(scale => renderFigurePng(first.svgOutlined, scale)));
    expect(Buffer.compare(a!, b!)).toBe(0);
    const header = new DataView(a!.buffer, a!.byteOffset);
    expect([header.getUint32(16), header.getUint32(20)]).toEqual([first.widthPx, first.heightPx]);
  });

  it.each(ALL)('%s, %s: use no colour that another paper would not exchange', async (kind, layout) => {
    const { on } = await drawn(kind, layout);
    for (const [paper, palette] of Object.entries(PALETTES)) {
      const { svg } = on(paper as Paper);
      const colours = new Set([...svg.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(match => match[1]!));
      const known = new Set([...Object.values(palette).flat(), 'none', 'transparent']);
      expect(
        [...colours].filter(colour => !known.has(colour)),
        paper,
      ).toEqual([]);
    }
  });

  it('print no letter smaller than 7 pt', async () => {
    for (const kind of FIGURE_KINDS) {
      const { svg } = (await drawn(kind, 'print')).on(paperOf('print'));
      const sizes = [...svg.matchAll(/font-size="([\d.]+)(?:px)?"/g)].map(match => Number(match[1]));
      expect(sizes.length).toBeGreaterThan(3);
      expect(Math.min(...sizes) * 0.75, kind).toBeGreaterThanOrEqual(7);
    }
  });

  it.each(CROP_LAYOUTS)('%s: as many device pixels as social pages take, its plot legible', async layout => {
    const { widthPx, heightPx, scale } = CROP_SIZE[layout];
    const figure = made('speed-over-time');
    const picture = await renderCrop(figure, layout, lettering);
    if ('reason' in picture) throw new Error(picture.reason);
    expect([picture.widthPx, picture.heightPx]).toEqual([widthPx, heightPx]);
    const png = await renderFigurePng(picture.svgOutlined, scale);
    const header = new DataView(png.buffer, png.byteOffset);
    const sizes = {
      square: [1080, 1080],
      portrait: [1080, 1350],
      story: [1080, 1920],
      landscape: [1600, 900],
    };
    expect([header.getUint32(16), header.getUint32(20)]).toEqual(sizes[layout]);
    expect(parseSvg(picture.svg).attributes['aria-label']).toBe(figure.altText);
    for (const part of ['The Hedgerow Motorist', '9 of 10 kept', 'dry']) {
      expect(picture.svg.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')).toContain(part);
    }
  });

  it('come as WebP and AVIF too, of the same size, in the same bytes twice', async () => {
    const { svgOutlined, widthPx, heightPx } = await renderFigure(made('braking'), 'narrow', lettering);
    for (const render of [renderFigureWebp, renderFigureAvif]) {
      const [first, second] = await Promise.all([render(svgOutlined, 2), render(svgOutlined, 2)]);
      expect(Buffer.compare(first, second)).toBe(0);
      const { width, height } = await sharp(first).metadata();
      expect([width, height]).toEqual([widthPx * 2, heightPx * 2]);
    }
  });

  it('take the families of the look for text', async () => {
    const { svg } = await renderFigure(made('braking'), 'wide', lettering);
    const families = [...svg.matchAll(/font-family="([^"]+)"/g)].map(match => match[1]);
    expect(new Set(families)).toEqual(new Set([`${FACE.chart}, sans-serif`, `${FACE.text}, serif`]));
  });
});

describe('labels', () => {
  it.each(ALL)('%s, %s: are as wide as the lettering says', async (kind, layout) => {
    const boxes = await boxesOf(kind, layout);
    expect(boxes.length).toBeGreaterThan(5);
    for (const { text, widthPx, item } of boxes) {
      const width = lettering.width(text, textStyle(item.font, item.fontWeight, item.fontSize ?? 11));
      const limit = item.limit !== undefined && item.limit > 0 ? item.limit : Number.POSITIVE_INFINITY;
      expect(Math.abs(widthPx - Math.min(width, limit))).toBeLessThan(0.6);
    }
  });

  it.each(ALL)('%s, %s: do not stand on each other and stay on the paper', async (kind, layout) => {
    const boxes = await boxesOf(kind, layout);
    expect(overlaps(boxes)).toEqual([]);
    const left = Math.min(...boxes.map(({ x1 }) => x1));
    const right = Math.max(...boxes.map(({ x2 }) => x2));
    expect(right - left).toBeLessThanOrEqual(plotWidthPx(layout) + 1.5);
  });

  it('stay apart with six runs that end within a hair of each other', async () => {
    const plan = {
      ...FIXTURE_PLAN,
      attempts: FIXTURE_PLAN.attempts.slice(0, 6).map(({ setAside: _, ...one }, i) => ({
        ...one,
        launch: { ...one.launch, lagS: 8.8 + i * 0.002, onsetS: 0.3 },
      })),
    };
    const test = testFixture(plan);
    const choice = { ...CHOICE, attempts: test.attempts.map(({ id }) => id) };
    for (const layout of LAYOUTS) {
      for (const kind of ['speed-over-time', 'acceleration-over-speed'] as const) {
        const boxes = await plotBoxes(made(kind, test, choice).spec[layout], layout, lettering);
        expect(boxes.length).toBeGreaterThan(0);
        expect(overlaps(boxes)).toEqual([]);
      }
    }
  });
});

describe('what people wrote', () => {
  const evil = '<script>alert("x")</script> & Co';
  const test = testFixture({
    ...FIXTURE_PLAN,
    attempts: FIXTURE_PLAN.attempts.map(one => ({
      ...one,
      launchName: one.launchId === 'brake' ? evil : one.launchName!,
      ...(one.setAside === undefined ? {} : { setAside: evil }),
    })),
  });
  const named: TestResult = {
    ...test,
    car: { ...test.car, name: evil, short_name: evil },
    road: { ...test.road, name: evil },
  };
  const house: House = {
    ...houseFixture(),
    name: evil,
    launch_methods: houseFixture().launch_methods.map(one =>
      one.id === 'brake' ? { ...one, name: evil } : one,
    ),
  };

  it.each(ALL)('%s, %s: never becomes markup', async (kind, layout) => {
    const { svg, svgOutlined } = await renderFigure(made(kind, named, CHOICE, house), layout, lettering);
    for (const text of [svg, svgOutlined]) {
      expect(text).not.toContain('<script');
      expect(() => parseSvg(text)).not.toThrow();
    }
    expect(svg).toContain('&lt;script&gt;');
  });
});

describe('the words of a figure', () => {
  const house = houseFixture();
  const test = testFixture();
  const printed = (query: Parameters<typeof pickResult>[2]): string =>
    printResult(pickResult(test, house, query)!, house).text;

  it('speed over time tells each run’s figure in its alternative text', () => {
    const { altText } = made('speed-over-time');
    for (const launch of ['plain', 'brake', 'sport']) {
      expect(altText).toContain(printed({ measure: '0-100-kmh', launch }));
    }
  });

  it('the runs of the day tell best and count of each launch method', () => {
    const { altText } = made('runs-of-the-day');
    for (const launch of ['plain', 'brake', 'sport']) {
      expect(altText).toContain(`best ${printed({ measure: '0-100-kmh', launch })}`);
    }
    expect(altText).toContain('8 kept, 1 set aside');
    expect(altText).toContain('One kept attempt did not reach it');
  });

  it('the first two seconds tell the closed-form time of the first foot', () => {
    const { altText, title } = made('first-two-seconds');
    const { rolloutS } = test.attempts[4]!.measurement.start!;
    expect(rolloutS).toBeCloseTo(0.446, 3);
    expect(title).toContain('0.45\u00a0s');
    expect(altText).toContain('one foot is covered 0.45\u00a0s later');
  });

  it('braking tells the shortest and the middle stop', () => {
    const { altText } = made('braking');
    expect(altText).toContain(printed({ measure: 'stop-from-100-kmh' }));
    expect(altText).toContain(printed({ measure: 'stop-from-100-kmh', statistic: 'median' }));
  });

  it('time gained tells the published difference', () => {
    expect(made('time-gained').altText).toContain('0.38\u00a0s ahead');
  });

  it.each(FIGURE_KINDS)(
    '%s tells rule or method, conditions, car, road, date and publication in its foot',
    kind => {
      const foot = made(kind).foot.join(' ');
      for (const part of [
        'Wendover Sorrel 52',
        'Fixture field',
        '12\u00a0May\u00a02026',
        'dry',
        '14\u00a0°C',
        'The Hedgerow Motorist',
      ]) {
        expect(foot).toContain(part);
      }
      // Places on a road, not times: no clock is started.
      const untimed: readonly FigureKind[] = [
        'braking',
        'acceleration-over-speed',
        'conditions-strip',
        'road-plan',
      ];
      if (!untimed.includes(kind)) expect(foot).toMatch(/movement/);
    },
  );

  it.each(FIGURE_KINDS)('%s has a table of a sensible length with a cell for every column', kind => {
    const { table } = made(kind);
    // The fixture's day has one reading of the air.
    expect(table.rows.length).toBeGreaterThan(kind === 'conditions-strip' ? 0 : 2);
    expect(table.rows.length).toBeLessThan(60);
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  });

  it('speed over time shifts its clock by the rollout under the other rule', () => {
    const rule = made('speed-over-time', test, { startRule: 'one-foot-rollout' });
    expect(rule.altText).toContain(printed({ measure: '0-100-kmh', startRule: 'one-foot-rollout' }));
    expect(rule.foot[0]).toContain('one-foot rollout');
  });
});

describe('figures that cannot be drawn', () => {
  const none: TestResult = { ...testFixture(), attempts: [] };

  it.each(FIGURE_KINDS.filter(kind => kind !== 'road-plan'))(
    '%s says why there is nothing in an empty test',
    kind => {
      expect(reason(kind, none)).toMatch(/^No kept attempt/);
    },
  );

  it('the road plan is there before the first run, and says what it is estimated from', () => {
    const made = FIGURES['road-plan'].make(none, houseFixture(), CHOICE);
    if ('reason' in made) throw new Error(made.reason);
    expect(made.foot.join(' ')).toMatch(/estimated/);
    expect(made.foot.join(' ')).not.toMatch(/measured: the mean/);
  });

  it('an attempt that is not there is named, with those that are', () => {
    expect(reason('speed-over-time', testFixture(), { ...CHOICE, attempts: ['a99'] })).toBe(
      'There is no attempt ‘a99’ in this test; it has a01 to a10.',
    );
    expect(reason('speed-over-time', testFixture(), { ...CHOICE, attempts: ['best:kick'] })).toContain(
      '‘kick’',
    );
  });

  it('time gained wants two runs and the first two seconds one', () => {
    expect(reason('time-gained', testFixture(), { ...CHOICE, attempts: ['a01'] })).toContain(
      'two runs, not 1',
    );
    expect(reason('first-two-seconds', testFixture(), { ...CHOICE, attempts: ['a01', 'a02'] })).toContain(
      'one attempt',
    );
  });

  it('more runs than there are lines to tell apart are refused where panels would not help', () => {
    const attempts = testFixture().attempts.map(({ id }) => id);
    expect(reason('acceleration-over-speed', testFixture(), { ...CHOICE, attempts })).toContain('At most 8');
  });
});

describe('more than eight runs', () => {
  const attempts = testFixture().attempts.map(({ id }) => id);

  it.each(LAYOUTS)(
    '%s: have a panel each, with name and figure, labels apart and on the paper',
    async layout => {
      const figure = made('speed-over-time', testFixture(), { ...CHOICE, attempts });
      const boxes = await plotBoxes(figure.spec[layout], layout, lettering);
      expect(overlaps(boxes)).toEqual([]);
      expect(boxes.filter(({ text }) => /, no\.|no\.\u00a0\d/.test(text))).toHaveLength(attempts.length);
      expect(boxes.filter(({ text }) => text === 'set aside')).toHaveLength(1);
      expect(Math.min(...boxes.map(({ x1 }) => x1))).toBeGreaterThanOrEqual(-1);
      expect(figure.altText).toContain('10 small line charts');
    },
  );
});
