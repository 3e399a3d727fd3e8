/** Makes the table of all tests searched, filtered, sorted and chosen from; without this script it stands whole. */
import { searchable } from '../../pipeline/article/searchable.ts';

const form = document.querySelector<HTMLFormElement>('form.finder')!;
const table = document.querySelector<HTMLTableElement>('table.all-tests')!;
const body = table.tBodies[0]!;
const rows = [...body.rows];
const shown = form.querySelector('output')!;
const compare = form.querySelector<HTMLAnchorElement>('.compare-chosen')!;
const boxes = rows.map(row => row.querySelector<HTMLInputElement>('input[type=checkbox]')!);
const FILTERS = ['kind', 'drive', 'surface'] as const;

const fill = (words: string, values: Readonly<Record<string, string | number>>): string =>
  words.replace(/%(\w)/g, (_, name: string) => String(values[name] ?? ''));
const chosenIn = (name: string): string =>
  (form.elements.namedItem(name) as HTMLInputElement | HTMLSelectElement).value;

/** Shows the rows that fit, says how many, and keeps the question in the address, so that it can be passed on. */
function filter(): void {
  const asked = searchable(chosenIn('q')).split(/\s+/).filter(Boolean);
  let count = 0;
  for (const row of rows) {
    const text = searchable(row.textContent);
    const fits =
      asked.every(word => text.includes(word)) &&
      FILTERS.every(name => {
        const value = chosenIn(name);
        const own = row.dataset[name] ?? '';
        return value === '' || own === value || (name === 'surface' && own.split(' ').includes(value));
      });
    row.hidden = !fits;
    if (fits) count += 1;
  }
  const { none = '', shown: words = '' } = form.dataset;
  shown.value = count === 0 ? none : fill(words, { n: count, m: rows.length });
  const question = new URLSearchParams();
  for (const name of ['q', ...FILTERS]) if (chosenIn(name) !== '') question.set(name, chosenIn(name));
  const query = question.toString();
  history.replaceState(null, '', query === '' ? location.pathname : `?${query}`);
}

/** An empty cell stands last whichever way the column is sorted. */
function sortBy(head: HTMLTableCellElement, direction: 'ascending' | 'descending'): void {
  const column = head.cellIndex;
  const keyed = rows.map(row => {
    const cell = row.cells[column]!;
    return { row, key: cell.dataset.value ?? cell.textContent.trim() };
  });
  const isNumber = head.dataset.sorts === 'number';
  keyed.sort((a, b) => {
    if ((a.key === '') !== (b.key === '')) return a.key === '' ? 1 : -1;
    const order = isNumber
      ? Number(a.key) - Number(b.key)
      : a.key.localeCompare(b.key, document.documentElement.lang);
    return direction === 'ascending' ? order : -order;
  });
  body.append(...keyed.map(({ row }) => row));
  for (const other of head.parentElement!.children) other.removeAttribute('aria-sort');
  head.ariaSort = direction;
}

function makeSortable(head: HTMLTableCellElement): void {
  const button = head.querySelector('button')!;
  button.title = fill(form.dataset.sort ?? '', { c: button.textContent });
  button.addEventListener('click', () =>
    sortBy(head, head.ariaSort === 'ascending' ? 'descending' : 'ascending'),
  );
}

function chosen(): void {
  const ids = boxes.filter(box => box.checked).map(box => box.value);
  const enough = ids.length >= 2;
  compare.ariaDisabled = String(!enough);
  compare.title = enough ? '' : (form.dataset.more ?? '');
  if (enough) compare.href = `${form.dataset.compare}?tests=${ids.join(',')}`;
  else compare.removeAttribute('href');
}

for (const head of table.querySelectorAll<HTMLTableCellElement>('th[data-sorts]')) makeSortable(head);
for (const box of boxes) box.addEventListener('change', chosen);
for (const [name, value] of new URLSearchParams(location.search)) {
  const field = form.elements.namedItem(name);
  if (field instanceof HTMLInputElement || field instanceof HTMLSelectElement) field.value = value;
}
form.addEventListener('input', filter);
form.addEventListener('submit', event => event.preventDefault());
form.classList.add('ready');
table.classList.add('ready');
filter();
chosen();
