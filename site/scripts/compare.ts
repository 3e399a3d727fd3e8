/**
 * Sets the tests named in the address side by side. Every sentence was made by the build; nothing is worked out here,
 * and text from people goes in as text, never as markup.
 */
import type { CompareData } from '../../pipeline/article/compare-data.ts';

const form = document.querySelector<HTMLFormElement>('form.chooser')!;
const place = document.querySelector<HTMLElement>('.side-by-side')!;
const below = document.querySelector<HTMLElement>('.pairs-below')!;
const message = form.querySelector('output')!;
const boxes = [...form.querySelectorAll<HTMLInputElement>('input[name=tests]')];
const words = form.dataset;
const loaded = new Map<string, Promise<CompareData>>();

const load = (id: string): Promise<CompareData> => {
  const known = loaded.get(id);
  if (known !== undefined) return known;
  const loading = fetch(`${words.source}${id}.json`).then(response => {
    if (!response.ok) throw new Error(`${response.status}`);
    return response.json() as Promise<CompareData>;
  });
  loaded.set(id, loading);
  return loading;
};

function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string>>,
  ...content: readonly (string | Node)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...content);
  return made;
}

function tableOf(tests: readonly CompareData[]): HTMLElement {
  const labels = tests[0]!.rows
    .map(({ label }) => label)
    .filter(label => tests.some(({ rows }) => rows.some(row => row.label === label && row.text)));
  const head = element(
    'tr',
    {},
    element('th', { scope: 'col' }, words.figure ?? ''),
    ...tests.map(({ name, address, title }) =>
      element(
        'th',
        { scope: 'col' },
        element('a', { href: address }, name),
        ' ',
        element('span', { class: 'unit' }, title),
      ),
    ),
  );
  const lines = labels.map(label =>
    element(
      'tr',
      {},
      element('th', { scope: 'row' }, label),
      ...tests.map(({ rows }) => {
        const row = rows.find(each => each.label === label);
        if (row?.text === undefined)
          return element('td', {}, element('span', { class: 'unit' }, words.missing ?? ''));
        return element(
          'td',
          {},
          row.text,
          ...(row.detail === undefined ? [] : [' ', element('span', { class: 'unit' }, row.detail)]),
        );
      }),
    ),
  );
  const table = element(
    'table',
    {},
    element('caption', {}, element('span', {}, words.caption ?? '')),
    element('thead', {}, head),
    element('tbody', {}, ...lines),
  );
  const region = { class: 'table-scroll', tabindex: '0', role: 'region', 'aria-label': words.region ?? '' };
  return element('div', region, table);
}

/** What each pair comes to, its caveat beside it. */
function answersOf(tests: readonly CompareData[]): HTMLElement {
  const items = tests.flatMap((first, index) =>
    tests.slice(index + 1).flatMap(second => {
      const pair = first.pairs[second.id];
      if (pair === undefined)
        return [element('li', {}, `${first.name}, ${second.name}: ${words.apart ?? ''}`)];
      return [
        element(
          'li',
          {},
          element('a', { href: pair.address }, pair.answer),
          element('br', {}),
          element('span', { class: 'unit' }, [`${pair.of}.`, ...pair.caveats].join(' ')),
        ),
      ];
    }),
  );
  return element(
    'section',
    { class: 'part', 'aria-labelledby': 'answers' },
    element('h2', { id: 'answers' }, words.answers ?? ''),
    element('div', { class: 'content' }, element('ul', { class: 'pairs' }, ...items)),
  );
}

/** Of calls that overlap, the last one shows. */
let asked = 0;

async function show(): Promise<void> {
  const ids = boxes.filter(box => box.checked).map(box => box.value);
  history.replaceState(null, '', ids.length === 0 ? location.pathname : `?tests=${ids.join(',')}`);
  asked += 1;
  const own = asked;
  if (ids.length < 2) {
    message.value = words.few ?? '';
    place.replaceChildren();
    return;
  }
  try {
    const tests = await Promise.all(ids.map(load));
    if (own !== asked) return;
    message.value = '';
    place.replaceChildren(answersOf(tests), tableOf(tests));
  } catch {
    for (const id of ids) loaded.delete(id);
    message.value = words.failed ?? '';
    place.replaceChildren();
  }
}

const named = new URLSearchParams(location.search).get('tests')?.split(',') ?? [];
for (const box of boxes) box.checked = named.includes(box.value);
form.addEventListener('change', () => void show());
form.addEventListener('submit', event => event.preventDefault());
form.classList.add('ready');
void show().then(() => below.classList.add('ready'));
