/** Nodes of our own among an article's Markdown: finished blocks and numbers. */
import type { ElementContent } from 'hast';
import type { Literal, Node } from 'mdast';
import type { Options } from 'remark-rehype';

/** A block of finished HTML; nothing written by people gets here unescaped. */
export interface OwnBlock extends Literal {
  type: 'ownBlock';
}

/** A number in a sentence; how it looks stands in `data`. */
export interface OwnNumber extends Node {
  type: 'ownNumber';
  children: [];
  data: { hName: string; hProperties: Record<string, string | string[]>; hChildren: ElementContent[] };
}

declare module 'mdast' {
  interface RootContentMap {
    ownBlock: OwnBlock;
    ownNumber: OwnNumber;
  }
  interface PhrasingContentMap {
    ownNumber: OwnNumber;
  }
}

type Handler = NonNullable<NonNullable<Options['handlers']>['ownBlock']>;

export const ownBlock: Handler = (_state, node: OwnBlock) => ({ type: 'raw', value: node.value });
