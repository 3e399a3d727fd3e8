/** Looks words up in the index of the articles; without this script the page lists every article. */

/** What is used of the index's own script, which the build puts beside the pages. */
interface Index {
  options(options: { readonly baseUrl: string; readonly excerptLength: number }): Promise<void>;
  init(): Promise<void>;
  debouncedSearch(words: string): Promise<{ readonly results: readonly Hit[] } | null>;
}
interface Hit {
  data(): Promise<{
    readonly url: string;
    readonly excerpt: string;
    readonly meta: { readonly title?: string };
  }>;
}

const MOST_HITS = 20;
const form = document.querySelector<HTMLFormElement>('form.search-form')!;
const field = form.querySelector<HTMLInputElement>('input')!;
const message = form.querySelector('output')!;
const list = document.querySelector('.hits')!;
let loading: Promise<Index> | undefined;

async function load(): Promise<Index> {
  const index = (await import(/* @vite-ignore */ form.dataset.index!)) as Index;
  await index.options({ baseUrl: form.dataset.base!, excerptLength: 26 });
  await index.init();
  return index;
}

const SIGNS: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
  '#x27': "'",
};

/** An excerpt names what was found by `<mark>`; everything else in it is text and is put in as such. */
function excerptNodes(excerpt: string): (string | Node)[] {
  return excerpt.split(/(<mark>.*?<\/mark>)/).map(part => {
    const marked = /^<mark>(.*)<\/mark>$/.exec(part)?.[1];
    const text = (marked ?? part).replace(/&(amp|lt|gt|quot|#39|#x27);/g, (_, sign: string) => SIGNS[sign]!);
    if (marked === undefined) return text;
    const mark = document.createElement('mark');
    mark.textContent = text;
    return mark;
  });
}

async function entryOf(hit: Hit): Promise<HTMLLIElement> {
  const { url, excerpt, meta } = await hit.data();
  const [item, head, link, text] = [
    document.createElement('li'),
    document.createElement('h2'),
    document.createElement('a'),
    document.createElement('p'),
  ];
  link.href = url;
  link.textContent = meta.title ?? url;
  head.append(link);
  text.append(...excerptNodes(excerpt));
  item.append(head, text);
  return item;
}

async function search(): Promise<void> {
  const words = field.value.trim();
  history.replaceState(null, '', words === '' ? location.pathname : `?q=${encodeURIComponent(words)}`);
  if (words === '') {
    message.value = '';
    list.replaceChildren();
    return;
  }
  try {
    loading ??= load();
    const found = await (await loading).debouncedSearch(words);
    // Another word was typed meanwhile.
    if (found === null) return;
    const entries = await Promise.all(found.results.slice(0, MOST_HITS).map(entryOf));
    if (field.value.trim() !== words) return;
    const { none = '', found: count = '' } = form.dataset;
    message.value = entries.length === 0 ? none : count.replace('%n', String(found.results.length));
    list.replaceChildren(...entries);
  } catch {
    loading = undefined;
    message.value = form.dataset.failed ?? '';
    list.replaceChildren();
  }
}

field.addEventListener('input', () => void search());
form.addEventListener('submit', event => {
  event.preventDefault();
  void search();
});
form.classList.add('ready');
field.value = new URLSearchParams(location.search).get('q') ?? '';
if (field.value !== '') void search();
