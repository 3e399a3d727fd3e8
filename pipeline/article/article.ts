/**
 * An article's Markdown made into HTML, for the site's page and the press folder alike.
 *
 *   Markdown ─► own directives found ─► plain Markdown kept ─► numbers looked up ─► HTML
 *
 * Numbers stand in the text as measured, each a link to its note; nobody types one. Reading needs no script.
 */
import type { Element, Nodes as HtmlNodes, Root as HtmlRoot } from 'hast';
import type { Nodes, Parent, Root } from 'mdast';
import rehypeStringify from 'rehype-stringify';
import { remark } from 'remark';
import remarkRehype from 'remark-rehype';
import { SKIP, visit } from 'unist-util-visit';
import { nearMiss } from '../content/near-miss.ts';
import { START_RULES } from '../content/schema.ts';
import type { NotMade } from '../figure/figure.ts';
import { catalogue, type Spoken } from '../language.ts';
import type { Place, Problem } from '../problem.ts';
import { figureNotMade, nearlyOurs, noTestHere, notInPlace, notRead } from '../problems/article.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { AskedWords } from './asked-words.ts';
import { findCondition } from './condition.ts';
import { findCount } from './count.ts';
import { findDifference } from './difference.ts';
import { type FigureUse, figuresOf } from './figures-used.ts';
import { findNumber } from './number.ts';
import { NumberNotes } from './number-notes.ts';
import {
  BLOCK_DIRECTIVES,
  type BlockName,
  DIRECTIVES,
  type DirectiveNode,
  type InlineName,
  type OwnDirective,
  type ParsedArticle,
  parseArticle,
} from './own-directives.ts';
import { type OwnBlock, ownBlock } from './own-nodes.ts';
import { keepPlain, placeHeadings } from './plain-markdown.ts';
import { type Answer, type Asked, isFound, type PublishedNumber } from './published-number.ts';

export interface ArticleInput {
  readonly test: TestResult;
  readonly house: House;
  readonly publication: Publication;
  /** Kinds that exist, for messages: keys of `figures.ts` and `tables.ts`. */
  readonly figureKinds: readonly string[];
  readonly tableKinds: readonly string[];
  /** A complete `<figure>`, or why there is none. */
  figureHtml(use: FigureUse): string | NotMade;
  /** A complete block with its `<table>`. */
  tableHtml(kind: string): string;
  /** Makes `/methodology/` an address on this site; unchanged where absent. */
  address?(path: string): string;
}

/** What Markdown that belongs to no test is made with. */
export interface PlainInput extends Pick<ArticleInput, 'address'> {
  readonly language?: string;
}

export interface Article {
  readonly html: string;
  /** For the notes under the article: `notesHtml` in `number-notes.ts` makes them HTML. */
  readonly numbers: readonly PublishedNumber[];
  readonly figures: readonly FigureUse[];
  readonly tables: readonly string[];
  readonly problems: readonly Problem[];
}

const FIND: Readonly<Record<InlineName, (asked: Asked) => Answer>> = {
  number: findNumber,
  difference: findDifference,
  count: findCount,
  condition: findCondition,
};

/** Prefix of the ids of an article's own headings, so that none meets an id of the page around it. */
const HEADING_PREFIX = 'text-';

const WORDS = catalogue({
  en: { table: 'Table', footnotes: 'Footnotes', back: (n: string) => `Back to reference ${n}` },
  de: { table: 'Tabelle', footnotes: 'Fußnoten', back: n => `Zurück zu Verweis ${n}` },
});

const writer = (spoken: Spoken) =>
  remark()
    .use(remarkRehype, {
      clobberPrefix: HEADING_PREFIX,
      footnoteLabel: WORDS(spoken).footnotes,
      footnoteLabelProperties: { className: ['unseen'] },
      footnoteBackLabel: (reference, again) =>
        WORDS(spoken).back(`${reference + 1}${again > 1 ? `-${again}` : ''}`),
      handlers: { ownBlock },
    })
    .use(() => (tree: HtmlRoot) => scrollTables(tree, WORDS(spoken).table))
    .use(rehypeStringify, { allowDangerousHtml: true });

/**
 * The article of a test as HTML. Problems of severity error mean that it must not be published; the HTML is
 * then still whole, with the directive as written where its number or figure would stand.
 */
export function articleToHtml(input: ArticleInput): Article {
  const { test } = input;
  return markdownToHtml(test.articleMarkdown, test.articleFile, input);
}

/** The same for Markdown that belongs to no test, such as the methodology page's: it can say no numbers. */
export function markdownToHtml(
  markdown: string,
  file: string,
  input: ArticleInput | PlainInput = {},
): Article {
  const parsed = parseArticle(markdown);
  const placeOf = (node: Parameters<ParsedArticle['placeOf']>[0]): Place => ({
    file,
    ...parsed.placeOf(node),
  });
  const problems: Problem[] = keepPlain(parsed.tree, placeOf);
  for (const { name, line, column } of parsed.strays) {
    const near = nearMiss(name, DIRECTIVES);
    if (near !== undefined) problems.push(nearlyOurs({ file, line, column }, name, near));
  }
  for (const { name, written, line, column } of parsed.unread) {
    problems.push(notRead({ file, line, column }, name, written, isBlock(name)));
  }
  const put = new Map<DirectiveNode, Nodes>();
  const spoken = 'house' in input ? input.house : (input.language ?? 'en');
  const notes = new NumberNotes(spoken);
  const figures = 'test' in input ? figuresOf(parsed.directives, input.house) : [];
  const tables: string[] = [];
  for (const directive of parsed.directives) {
    const where = { file, line: directive.line, column: directive.column };
    if (!('test' in input)) {
      problems.push(noTestHere(where, directive.name));
      continue;
    }
    if (!directive.inPlace) {
      problems.push(notInPlace(where, directive.name, isBlock(directive.name)));
      continue;
    }
    const made = isBlock(directive.name)
      ? blockFor(directive, where, input, figures, tables)
      : numberFor(directive, where, input, notes);
    if (Array.isArray(made)) problems.push(...made);
    else put.set(directive.node, made);
  }
  putInPlace(parsed.tree, parsed.directives, put);
  placeHeadings(parsed.tree, HEADING_PREFIX, textOf);
  if (input.address) localLinks(parsed.tree, input.address);
  const inLanguage = writer(spoken);
  const html = inLanguage.stringify(inLanguage.runSync(parsed.tree));
  return {
    html,
    numbers: notes.all(),
    figures: figures.map(({ use }) => use),
    tables,
    problems: inOrder(problems),
  };
}

const isBlock = (name: string): name is BlockName => (BLOCK_DIRECTIVES as readonly string[]).includes(name);

function numberFor(
  directive: OwnDirective,
  where: Place,
  input: ArticleInput,
  notes: NumberNotes,
): Nodes | Problem[] {
  const { test, house, publication } = input;
  const { name, attributes } = directive;
  const answer = FIND[name as InlineName]({ directive: name, attributes, where, test, house, publication });
  return isFound(answer) ? notes.say(`${name} ${JSON.stringify(attributes)}`, answer) : [...answer.problems];
}

function blockFor(
  directive: OwnDirective,
  where: Place,
  input: ArticleInput,
  figures: readonly { readonly directive: OwnDirective; readonly use: FigureUse }[],
  tables: string[],
): OwnBlock | Problem[] {
  const { test, house, publication } = input;
  const words = new AskedWords({
    directive: directive.name,
    attributes: directive.attributes,
    where,
    test,
    house,
    publication,
  });
  if (directive.name === 'table') {
    words.allow(['show']);
    const kind = words.must('show', 'table', input.tableKinds, '::table{show=splits}');
    if (kind === undefined || words.problems.length > 0) return words.problems;
    tables.push(kind);
    return { type: 'ownBlock', value: input.tableHtml(kind) };
  }
  words.allow(['show', 'attempts', 'start']);
  const kind = words.must('show', 'figure', input.figureKinds, '::figure{show=speed-over-time}');
  words.one('start', 'start rule', START_RULES);
  words.several('attempts', 'attempt of this test', [
    'best',
    'median',
    ...words.launches().flatMap(launch => [`best:${launch}`, `median:${launch}`]),
    ...test.attempts.map(({ id }) => id),
  ]);
  const use = figures.find(figure => figure.directive === directive)?.use;
  if (kind === undefined || use === undefined || words.problems.length > 0) return words.problems;
  const made = input.figureHtml(use);
  return typeof made === 'string'
    ? { type: 'ownBlock', value: made }
    : [figureNotMade(where, kind, made.reason)];
}

/** Puts numbers and figures where their directives stood; what could not be made stays as it was written. */
function putInPlace(
  tree: Root,
  directives: readonly OwnDirective[],
  put: ReadonlyMap<DirectiveNode, Nodes>,
): void {
  const written = new Map(directives.map(directive => [directive.node as Nodes, directive.written]));
  visit(tree, (node, index, parent) => {
    const text = written.get(node);
    if (!parent || index === undefined || text === undefined) return;
    (parent as Parent).children[index] = (put.get(node as DirectiveNode) ?? asText(text, node)) as never;
    return SKIP;
  });
}

function asText(value: string, node: Nodes): Nodes {
  const text = { type: 'text' as const, value };
  return node.type === 'textDirective' ? text : { type: 'paragraph', children: [text] };
}

function localLinks(tree: Root, address: (path: string) => string): void {
  visit(tree, node => {
    if ((node.type === 'link' || node.type === 'definition') && /^\/(?!\/)/.test(node.url)) {
      node.url = address(node.url);
    }
  });
}

/** Wide tables scroll by themselves, and can be reached by keyboard to do so. */
function scrollTables(tree: HtmlRoot, label: string): void {
  visit(tree, 'element', (node: Element, index, parent) => {
    if (node.tagName !== 'table' || !parent || index === undefined) return;
    const region: Element = {
      type: 'element',
      tagName: 'div',
      properties: { className: ['table-scroll'], tabIndex: 0, role: 'region', ariaLabel: label },
      children: [node],
    };
    (parent.children as HtmlNodes[])[index] = region;
    return SKIP;
  });
}

function textOf(node: Nodes): string {
  if ('value' in node) return node.value;
  return 'children' in node ? (node.children as Nodes[]).map(textOf).join('') : '';
}

function inOrder(problems: readonly Problem[]): Problem[] {
  const key = ({ where }: Problem) => (where?.line ?? 0) * 100_000 + (where?.column ?? 0);
  return [...problems].sort((a, b) => key(a) - key(b));
}
