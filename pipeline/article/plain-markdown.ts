/**
 * What people's Markdown may do on a page: words, emphasis, lists, tables, footnotes and links.
 * Markup is printed as written, never obeyed; links open pages or letters only.
 */
import type { Heading, Html, Image, ImageReference, Link, Node, Nodes, Root } from 'mdast';
import { SKIP, visit } from 'unist-util-visit';
import type { Place, Problem } from '../problem.ts';
import { linkNotTaken, markupShown, pictureNotTaken } from '../problems/article.ts';

export type PlaceOf = (node: Node) => Place;

/** Changes the tree in place and says what was not taken. */
export function keepPlain(tree: Root, placeOf: PlaceOf): Problem[] {
  return [...showMarkup(tree, placeOf), ...limitLinks(tree, placeOf), ...describePictures(tree, placeOf)];
}

/** Comments vanish, as they would from a page; other markup becomes text. */
function showMarkup(tree: Root, placeOf: PlaceOf): Problem[] {
  const problems: Problem[] = [];
  visit(tree, 'html', (node: Html, index, parent) => {
    if (!parent || index === undefined) return;
    if (/^<!--[\s\S]*-->\s*$/.test(node.value)) {
      parent.children.splice(index, 1);
      return [SKIP, index];
    }
    problems.push(markupShown(placeOf(node), shortened(node.value)));
    const text = { type: 'text' as const, value: node.value };
    const isBlock = parent.type !== 'paragraph' && !isPhrasing(parent.type);
    parent.children[index] = (isBlock ? { type: 'paragraph', children: [text] } : text) as never;
    return SKIP;
  });
  return problems;
}

const isPhrasing = (type: string): boolean =>
  ['heading', 'emphasis', 'strong', 'delete', 'link', 'linkReference', 'tableCell'].includes(type);

function limitLinks(tree: Root, placeOf: PlaceOf): Problem[] {
  const problems: Problem[] = [];
  visit(tree, (node: Nodes, index, parent) => {
    if (node.type === 'definition' && !mayLink(node.url)) {
      problems.push(linkNotTaken(placeOf(node), node.url));
      node.url = '';
    }
    if (node.type !== 'link' || !parent || index === undefined || mayLink(node.url)) return;
    problems.push(linkNotTaken(placeOf(node), node.url));
    parent.children.splice(index, 1, ...((node as Link).children as never[]));
    return [SKIP, index];
  });
  return problems;
}

/** Whether an address may be a link: http, https, mailto, or within the site. Case and stray spaces do not fool it. */
export function mayLink(address: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: browsers drop them inside a scheme, so they must not hide one
  const bare = address.replace(/[\u0000-\u0020]/g, '');
  if (bare.startsWith('//')) return false;
  const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(bare)?.[1]?.toLowerCase();
  return scheme === undefined || scheme === 'http' || scheme === 'https' || scheme === 'mailto';
}

function describePictures(tree: Root, placeOf: PlaceOf): Problem[] {
  const problems: Problem[] = [];
  visit(tree, (node: Nodes, index, parent) => {
    if (node.type !== 'image' && node.type !== 'imageReference') return;
    if (!parent || index === undefined) return;
    const picture: Image | ImageReference = node;
    problems.push(
      pictureNotTaken(placeOf(node), picture.type === 'image' ? picture.url : picture.identifier),
    );
    parent.children[index] = { type: 'text', value: picture.alt ?? '' } as never;
    return SKIP;
  });
  return problems;
}

/**
 * Gives headings the levels below the page's title, without a gap between one and the next, and ids by
 * which they can be linked to. Their words stay as written.
 */
export function placeHeadings(tree: Root, prefix: string, textOf: (heading: Heading) => string): void {
  const headings: Heading[] = [];
  visit(tree, 'heading', heading => void headings.push(heading));
  const top = Math.min(...headings.map(heading => heading.depth));
  let previous = 1;
  const taken = new Set<string>();
  for (const heading of headings) {
    const depth = Math.min(heading.depth - top + 2, previous + 1, 6);
    previous = depth;
    heading.depth = depth as Heading['depth'];
    const slug = textToSlug(textOf(heading)) || 'part';
    let id = `${prefix}${slug}`;
    for (let n = 2; taken.has(id); n += 1) id = `${prefix}${slug}-${n}`;
    taken.add(id);
    heading.data = { ...heading.data, hProperties: { id } };
  }
}

/** Lower-case letters, digits and hyphens. */
export function textToSlug(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}+/gu, '')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
}

function shortened(markup: string): string {
  const line = markup.split('\n', 1)[0] ?? '';
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}
