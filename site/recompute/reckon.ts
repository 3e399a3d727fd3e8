/** The part of a test's page that a reader sets up: controls here, every number from `pipeline/recompute`. */

import { keyFigures } from '../../pipeline/article/key-figures.ts';
import { escapeHtml } from '../../pipeline/escape-html.ts';
import type { PublishedTest } from '../../pipeline/recompute/published.ts';
import {
  differs,
  type OwnChoices,
  type OwnHouse,
  publishedChoices,
  recomputeTest,
  withChoices,
} from '../../pipeline/recompute/recompute.ts';
import { ownSpeedPlot } from '../../pipeline/recompute/speed-plot.ts';
import { ownKeyFigures, ownRestatedTable, unroundedTable } from '../../pipeline/recompute/tables.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { reasonInWords } from '../../pipeline/result/words/set-aside.ts';
import { type SpeedUnit, startRuleInWords } from '../../pipeline/result/words.ts';
import { START_RULES, type StartRule } from '../../pipeline/run/run.ts';
import { speedUnitOf } from '../../pipeline/speed-unit.ts';
import { scrollRegion, tableToHtml, withAddresses } from '../../pipeline/table/html.ts';
import type { Table } from '../../pipeline/table/table.ts';
import { ownWords } from './words.ts';

/** @returns false where the readings could not be fetched */
export async function begin(own: HTMLDetailsElement): Promise<boolean> {
  const body = own.querySelector<HTMLElement>('.own-body')!;
  const language = document.documentElement.lang;
  const words = ownWords(language);
  body.innerHTML = `<p role="status">${words.loading}</p>`;
  const published = await readingsFrom(own.dataset.readings!);
  if (published === undefined) {
    body.innerHTML = `<p role="alert">${words.failed}</p>`;
    return false;
  }
  setUp(body, published, own.dataset);
  return true;
}

async function readingsFrom(address: string): Promise<PublishedTest | undefined> {
  try {
    const answer = await fetch(address);
    return answer.ok ? ((await answer.json()) as PublishedTest) : undefined;
  } catch {
    return undefined;
  }
}

function setUp(
  body: HTMLElement,
  published: PublishedTest,
  { base = '', readings = '' }: DOMStringMap,
): void {
  const { house } = published;
  const anew = recomputeTest(published);
  const wanted = publishedChoices(published);
  body.innerHTML = controlsHtml(published, anew, readings);
  const form = body.querySelector('form')!;
  const out = (name: string): HTMLElement => body.querySelector<HTMLElement>(`[data-out="${name}"]`)!;
  const address = (path: string): string => base + path;
  const show = (): void => {
    const choices = choicesOf(form);
    const { test, house: ownHouse } = withChoices(anew, house, choices);
    const own = differs(choices, wanted);
    const words = ownWords(house);
    body.classList.toggle('own-choices', own);
    out('whose').textContent = own ? words.own : words.asPublished;
    out('lead').textContent = leadInWords(test, ownHouse);
    out('key').innerHTML = tableHtml(
      words.keyFigures,
      ownKeyFigures(test, ownHouse, choices.restated),
      ownHouse,
      address,
    );
    out('plot').innerHTML = ownSpeedPlot(test, ownHouse) ?? '';
    out('restated').innerHTML = choices.restated
      ? tableHtml(words.restatedTable, ownRestatedTable(test, ownHouse, own), ownHouse, address)
      : '';
  };
  form.addEventListener('change', show);
  form.addEventListener('submit', event => event.preventDefault());
  form.querySelector('button')!.addEventListener('click', () => {
    form.reset();
    show();
  });
  const unrounded = body.querySelector<HTMLDetailsElement>('details.unrounded')!;
  unrounded.addEventListener(
    'toggle',
    () => {
      const { house: ownHouse } = withChoices(anew, house, wanted);
      out('unrounded').innerHTML = tableHtml(
        ownWords(house).unrounded,
        unroundedTable(anew, ownHouse),
        ownHouse,
        address,
      );
    },
    { once: true },
  );
  show();
}

function choicesOf(form: HTMLFormElement): OwnChoices {
  const data = new FormData(form);
  return {
    startRule: data.get('rule') as StartRule,
    speedUnit: data.get('unit') as SpeedUnit,
    restated: data.has('restated'),
    counted: new Set(data.getAll('counted') as string[]),
  };
}

function leadInWords(test: TestResult, house: OwnHouse): string {
  const words = ownWords(house);
  const [lead] = keyFigures(test, house);
  if (lead === undefined) return words.noFigure;
  const { label, best, median, n } = lead;
  const withUncertainty = ({ text, uncertainty }: typeof best): string =>
    uncertainty === undefined ? text : `${text} ${uncertainty}`;
  const rule = startRuleInWords(house.headline_start_rule, house);
  return words.lead(label, withUncertainty(best), withUncertainty(median), n, rule);
}

const tableHtml = (label: string, table: Table, house: OwnHouse, address: (path: string) => string): string =>
  scrollRegion(label, withAddresses(tableToHtml(table, house), address), house);

/** Choices of the publication are the form's own defaults, so that resetting it is the way back. */
function controlsHtml({ house, road }: PublishedTest, test: TestResult, readings: string): string {
  const words = ownWords(house);
  const radio = (name: string, value: string, text: string, checked: boolean): string =>
    `<label><input type="radio" name="${name}" value="${value}"${checked ? ' checked' : ''}/> ${escapeHtml(text)}</label>`;
  const directions = new Map(road.directions.map(({ id, name }) => [id, name]));
  const attempts = test.attempts.map(({ id, number, at, launchName, directionId, setAside }) => {
    const facts = [
      words.attempt(number, at),
      launchName,
      directions.get(directionId ?? ''),
      setAside === undefined ? undefined : words.setAside(reasonInWords(setAside, house)),
    ].filter(fact => fact !== undefined);
    const checked = setAside === undefined ? ' checked' : '';
    return `<label><input type="checkbox" name="counted" value="${escapeHtml(id)}"${checked}/> ${escapeHtml(facts.join(', '))}</label>`;
  });
  return `<p>${words.about} <a href="${escapeHtml(readings)}" download>${words.readings}</a></p>
<form autocomplete="off">
<fieldset><legend>${words.startRule}</legend>${START_RULES.map(rule =>
    radio('rule', rule, startRuleInWords(rule, house), rule === house.headline_start_rule),
  ).join('')}</fieldset>
<fieldset><legend>${words.speedUnit}</legend>${(['km/h', 'mph'] as const).map(unit => radio('unit', unit, unit, unit === speedUnitOf(house))).join('')}</fieldset>
<fieldset class="own-restated"><label><input type="checkbox" name="restated"/> ${words.restated}</label></fieldset>
<fieldset class="own-attempts"><legend>${words.attempts}</legend>${attempts.join('')}</fieldset>
<p class="own-back"><button type="button">${words.back}</button></p>
</form>
<div role="status"><p class="own-whose" data-out="whose"></p><p data-out="lead"></p></div>
<div data-out="key"></div><div class="own-plot" data-out="plot"></div><div data-out="restated"></div>
<details class="unrounded"><summary>${words.unrounded}</summary><div data-out="unrounded"></div></details>`;
}
