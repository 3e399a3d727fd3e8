/**
 * A test on one page of A4 to print: the car, its key figures under both start rules, splits, conditions, a figure,
 * how it was measured, and the cautions. Set in two columns; a day with more than fits is set smaller, then shortened,
 * and says so.
 */
import { keyFigures } from '../article/key-figures.ts';
import { codeDigest } from '../cache/code-digest.ts';
import { bytesOnce } from '../cache/kept.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import { wholeAddress } from '../data/page-address.ts';
import type { MadeFigure } from '../figure/figure.ts';
import { outlineText } from '../figure/outline-text.ts';
import { figuresToPdf, type PdfPage } from '../figure/pdf.ts';
import { renderFigure } from '../figure/render.ts';
import { element, parseSvg, type SvgElement, type SvgNode, serialiseSvg } from '../figure/svg-tree.ts';
import { textLines } from '../figure/text-lines.ts';
import { wrapText, wrapWithoutWidow } from '../figure/wrap.ts';
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { PALETTES } from '../look.ts';
import { conditionsInWords, keptAttempts } from '../overlay/phrases.ts';
import { cautionOf } from '../result/caution.ts';
import type { House, TestResult } from '../result/result.ts';
import { dateInWords, startRuleBrief } from '../result/words.ts';
import { START_RULES } from '../run/run.ts';
import { movingTable } from '../table/moving.ts';
import { specTable } from '../table/spec.ts';
import { splitsTable } from '../table/splits.ts';
import { dataSheetWords } from './data-sheet-words.ts';

/** Makes pages, for the key under which they are kept. */
const PDF_CODE = 'pipeline/figure/pdf.ts';
/** A4 less the margin that `figuresToPdf` adds on each side, 18 pt; CSS px. */
const WIDTH_PX = (210 / 25.4) * 96 - 2 * 24;
const HEIGHT_PX = (297 / 25.4) * 96 - 2 * 24;
/** More air inside the page than its margin. */
const INSET_PX = 14;
const GUTTER_PX = 32;
const LEFT_PX = 322;
/** Sizes of type tried, as shares of the usual one; the smallest is 6.4 pt. */
const SIZES = [1, 0.95, 0.9, 0.85];
const BODY_PX = 10.2;
const { ink, muted, hairline } = PALETTES.mono;

type Align = 'start' | 'end';
interface Cell {
  readonly text: string;
  readonly align?: Align;
  readonly weight?: 400 | 600;
  readonly fill?: string;
}

/** One column of the page, filled from the top. */
class Column {
  readonly nodes: SvgNode[] = [];
  y: number;
  readonly x: number;
  readonly width: number;
  readonly #lettering: Lettering;
  readonly #share: number;

  constructor(lettering: Lettering, share: number, place: { x: number; y: number; width: number }) {
    this.#lettering = lettering;
    this.#share = share;
    this.x = place.x;
    this.y = place.y;
    this.width = place.width;
  }

  #style(px: number, weight: 400 | 600 = 400, face: TextStyle['face'] = 'sans'): TextStyle {
    return { face, weight, sizePx: Math.round(px * this.#share * 10) / 10 };
  }

  space(px: number): void {
    this.y += px * this.#share;
  }

  rule(): void {
    const y = Math.round(this.y) + 0.5;
    this.nodes.push(
      element('path', {
        d: `M${this.x},${y}H${this.x + this.width}`,
        stroke: hairline,
        'stroke-width': '0.8',
        fill: 'none',
      }),
    );
  }

  paragraph(
    text: string,
    {
      px = BODY_PX,
      weight = 400 as 400 | 600,
      face = 'sans' as TextStyle['face'],
      fill = ink as string,
    } = {},
  ): void {
    const style = this.#style(px, weight, face);
    const leadingPx = style.sizePx * 1.3;
    const lines = wrapWithoutWidow(text, this.width, part => this.#lettering.width(part, style));
    this.nodes.push(...textLines(lines, { x: this.x, y: this.y, style, leadingPx, fill }, this.#lettering));
    this.y += lines.length * leadingPx;
  }

  heading(text: string): void {
    this.space(11);
    this.paragraph(text, { px: 11.6, weight: 600, face: 'serif' });
    this.space(2);
  }

  /** A row of cells over shares of the width, each wrapped within its own, with a hairline above. */
  row(cells: readonly Cell[], shares: readonly number[], small = false): void {
    const style = (cell: Cell): TextStyle => this.#style(small ? BODY_PX * 0.9 : BODY_PX, cell.weight ?? 400);
    const leadingPx = style({ text: '' }).sizePx * 1.28;
    this.rule();
    this.y += 2;
    let x = this.x;
    let most = 1;
    for (const [index, cell] of cells.entries()) {
      const width = this.width * shares[index]!;
      const own = style(cell);
      const widthOf = (text: string): number => this.#lettering.width(text, own);
      const lines = wrapText(cell.text, width - 6, widthOf);
      most = Math.max(most, lines.length);
      for (const [nth, line] of lines.entries()) {
        const at = cell.align === 'end' ? x + width - widthOf(line) : x;
        this.nodes.push(
          ...textLines(
            [line],
            { x: at, y: this.y + nth * leadingPx, style: own, leadingPx, fill: cell.fill ?? ink },
            this.#lettering,
          ),
        );
      }
      x += width;
    }
    this.y += most * leadingPx + 2;
  }

  picture(tree: SvgElement, heightPx: number): void {
    this.nodes.push(element('g', { transform: `translate(${this.x},${Math.round(this.y)})` }, tree.children));
    this.y += heightPx;
  }
}

const end = (text: string, fill?: string): Cell => ({ text, align: 'end', ...(fill ? { fill } : {}) });
const head = (text: string, align: Align = 'end'): Cell => ({ text, align, fill: muted });
/** `7.29 s ± 0.02 s`. */
const withUncertainty = (text: string, uncertainty: string | undefined): string =>
  uncertainty === undefined ? text : `${text} ${uncertainty}`;

/** The page, and whether everything is on it. */
interface Sheet {
  readonly nodes: readonly SvgNode[];
  readonly heightPx: number;
}

function layOut(
  test: TestResult,
  house: House,
  figure: { readonly tree: SvgElement; readonly heightPx: number } | undefined,
  lettering: Lettering,
  share: number,
  mostRows: number,
): Sheet {
  const words = dataSheetWords(house);
  const inside = WIDTH_PX - 2 * INSET_PX;
  const top = new Column(lettering, share, { x: INSET_PX, y: INSET_PX, width: inside });
  top.paragraph(house.name, { weight: 600, fill: muted });
  top.paragraph(test.car.name, { px: 24, weight: 600, face: 'serif' });
  top.paragraph(
    words.of(test.content.title, test.road.name, dateInWords(test.content.date, house.language)),
    { px: 11, fill: muted },
  );
  top.space(4);

  const left = new Column(lettering, share, { x: INSET_PX, y: top.y, width: LEFT_PX });
  left.heading(words.asTested);
  for (const [label, value] of specTable(test, house).rows) {
    left.row([{ text: label!.text, fill: muted }, { text: value!.text }], [0.34, 0.66]);
  }
  left.rule();
  if (figure !== undefined) {
    left.space(14);
    left.picture(figure.tree, figure.heightPx);
  }

  const x = INSET_PX + LEFT_PX + GUTTER_PX;
  const right = new Column(lettering, share, { x, y: top.y, width: WIDTH_PX - INSET_PX - x });
  right.heading(words.keyFigures);
  keyFigureRows(right, test, house);
  splitRows(right, test, house, mostRows);
  movingRows(right, test, house, mostRows);
  right.heading(words.conditions);
  const kept = keptAttempts(test);
  right.paragraph(
    words.conditionsOf(
      conditionsInWords(kept, house) ?? words.notNoted,
      kept.length,
      test.attempts.length - kept.length,
    ),
  );

  const foot = new Column(lettering, share, {
    x: INSET_PX,
    y: Math.max(left.y, right.y) + 12,
    width: inside,
  });
  foot.rule();
  foot.space(5);
  foot.paragraph(
    words.method(startRuleBrief(house.headline_start_rule, house), wholeAddress(house, '/methodology/')),
    { px: 9 },
  );
  foot.space(4);
  foot.paragraph(`${words.caution} ${cautionOf(house)}`, { px: 9.6, weight: 600 });
  foot.space(4);
  foot.paragraph(
    `${words.workings(wholeAddress(house, `/tests/${test.id}/`))}. ${words.licence(house.name, house.licence.name)}.`,
    { px: 9, fill: muted },
  );
  return {
    nodes: [...top.nodes, ...left.nodes, ...right.nodes, ...foot.nodes],
    heightPx: foot.y + INSET_PX,
  };
}

/** Best under each start rule, the median under the house's own. */
function keyFigureRows(column: Column, test: TestResult, house: House): void {
  const words = dataSheetWords(house);
  const shares = [0.24, 0.3, 0.24, 0.22];
  column.row([head(''), head(''), head(words.best), head(words.median)], shares, true);
  for (const { label, best, byRule, median, n } of keyFigures(test, house)) {
    const headline = house.headline_start_rule;
    const rules =
      byRule === undefined ? [undefined] : [headline, ...START_RULES.filter(rule => rule !== headline)];
    for (const [index, rule] of rules.entries()) {
      const printed = rule === undefined ? best : byRule![rule];
      column.row(
        [
          { text: index === 0 ? label : '', weight: 600 },
          { text: rule === undefined ? '' : words.clock[rule], fill: muted },
          end(withUncertainty(printed.text, printed.uncertainty)),
          end(index === 0 ? words.medianOf(median.text, n) : ''),
        ],
        shares,
      );
    }
  }
  column.rule();
}

function splitRows(column: Column, test: TestResult, house: House, mostRows: number): void {
  const words = dataSheetWords(house);
  const { rows } = splitsTable(test, house);
  if (rows.length === 0) return;
  const headline = house.headline_start_rule;
  const other = START_RULES.find(rule => rule !== headline)!;
  const shares = [0.28, 0.29, 0.29, 0.14];
  column.heading(words.fromRest);
  column.row(
    [head(''), head(words.clock[headline]), head(words.clock[other]), head(words.kept)],
    shares,
    true,
  );
  for (const cells of rows.slice(0, mostRows)) {
    const [label, best, bestSure, , second, secondSure, , kept] = cells.map(({ text }) => text);
    column.row(
      [
        { text: label! },
        end(withUncertainty(best!, bestSure)),
        end(withUncertainty(second!, secondSure)),
        end(kept!, muted),
      ],
      shares,
    );
  }
  column.rule();
  if (rows.length > mostRows) {
    column.space(2);
    column.paragraph(words.shortened(rows.length - mostRows), { px: 9, fill: muted });
  }
}

function movingRows(column: Column, test: TestResult, house: House, mostRows: number): void {
  const words = dataSheetWords(house);
  const { rows } = movingTable(test, house);
  if (rows.length === 0) return;
  const shares = [0.46, 0.3, 0.24];
  column.heading(words.moving);
  column.row([head(''), head(words.best), head(words.kept)], shares, true);
  for (const cells of rows.slice(0, mostRows)) {
    const [label, best, sure, , kept] = cells.map(({ text }) => text);
    column.row([{ text: label! }, end(withUncertainty(best!, sure)), end(kept!, muted)], shares);
  }
  column.rule();
  if (rows.length > mostRows) {
    column.space(2);
    column.paragraph(words.shortened(rows.length - mostRows), { px: 9, fill: muted });
  }
}

/** Rows of a table left where the smallest type does not fit either. */
const SHORTENED = [Number.POSITIVE_INFINITY, 8, 5, 3];

/** The page as a picture; `made` stands on it where there is one. */
export async function dataSheetPage(
  test: TestResult,
  house: House,
  made: MadeFigure | undefined,
  lettering: Lettering,
): Promise<PdfPage> {
  const picture = made && (await renderFigure(made, 'print', lettering, 'mono'));
  const figure = picture && { tree: parseSvg(picture.svgOutlined), heightPx: picture.heightPx };
  const tries = [
    ...SIZES.map(share => [share, SHORTENED[0]!, figure] as const),
    ...SHORTENED.slice(1).map(rows => [SIZES.at(-1)!, rows, figure] as const),
    // The words go before the picture.
    [SIZES.at(-1)!, SHORTENED.at(-1)!, undefined] as const,
  ];
  let sheet: Sheet | undefined;
  for (const [share, rows, shown] of tries) {
    sheet = layOut(test, house, shown, lettering, share, rows);
    if (sheet.heightPx <= HEIGHT_PX) break;
  }
  const svg = element(
    'svg',
    { width: WIDTH_PX, height: HEIGHT_PX },
    sheet!.nodes.map(node => outlineText(node, lettering)),
  );
  return {
    svgOutlined: serialiseSvg(svg),
    widthPx: WIDTH_PX,
    heightPx: HEIGHT_PX,
    altText: textOfSheet(sheet!.nodes, made),
  };
}

/** Everything on the page in its order, for people who hear it and programs that search it. */
function textOfSheet(nodes: readonly SvgNode[], made: MadeFigure | undefined): string {
  const textOf = (node: SvgNode): string =>
    typeof node === 'string' ? node : node.name === 'g' ? '' : node.children.map(textOf).join(' ');
  const said = nodes.map(textOf).filter(text => text !== '');
  return [...said, ...(made === undefined ? [] : [made.altText])].join(' ');
}

/** A PDF of one page of A4, from `store` where the same page was made before. */
export async function testToDataSheet(
  test: TestResult,
  house: House,
  made: MadeFigure | undefined,
  lettering: Lettering,
  store: Store = NO_STORE,
): Promise<Uint8Array> {
  const page = await dataSheetPage(test, house, made, lettering);
  const info = { title: `${test.car.name}: ${dataSheetWords(house).sheet}`, language: house.language };
  return await bytesOnce(store, ['data sheet', codeDigest(PDF_CODE), page, info], async () =>
    figuresToPdf([page], info),
  );
}
