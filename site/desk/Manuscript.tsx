/**
 * Where the article is written: numbers, figures and tables stand in it as what they show, and are taken out whole.
 * What is saved is the plain text behind it, to the last character.
 */
import type { Ref } from 'preact';
import { useEffect, useImperativeHandle, useRef } from 'preact/hooks';
import { directiveInShort, isBlock, type Piece, textToPieces } from './manuscript.ts';

export interface Writing {
  /** Puts a directive in at the cursor, or at the end where there is none. */
  putIn(directive: string): void;
}

interface ManuscriptProps {
  readonly id: string;
  readonly labelledBy: string;
  /** The text as it stands now, asked anew each time: a drawing may lag behind the hand. */
  readonly textNow: () => string;
  /** What a directive shows, as far as known. */
  readonly shows: (directive: string) => string | undefined;
  readonly onText: (text: string) => void;
  readonly writing: Ref<Writing>;
}

export function Manuscript({ id, labelledBy, textNow, shows, onText, writing }: ManuscriptProps) {
  const box = useRef<HTMLDivElement>(null);
  // Where the cursor was when the hand went to the list.
  const cursor = useRef<Range | undefined>(undefined);

  useEffect(() => {
    const element = box.current!;
    const text = textNow();
    if (elementToText(element) !== text) {
      element.innerHTML = textToHtml(text, shows);
      holdOpen(element);
    }
  });
  useEffect(() => {
    for (const chip of box.current!.querySelectorAll<HTMLElement>('[data-directive]')) {
      const label = labelOf(chip.dataset.directive!, shows);
      if (chip.textContent !== label) chip.textContent = label;
    }
  });
  const keepCursor = () => {
    const selection = document.getSelection();
    if (selection?.rangeCount && box.current?.contains(selection.anchorNode)) {
      cursor.current = selection.getRangeAt(0).cloneRange();
    }
  };
  useEffect(() => {
    document.addEventListener('selectionchange', keepCursor);
    return () => document.removeEventListener('selectionchange', keepCursor);
  }, []);

  useImperativeHandle(writing, () => ({
    putIn(directive) {
      const element = box.current!;
      element.focus();
      const selection = document.getSelection()!;
      const range = cursor.current;
      if (range !== undefined && element.contains(range.startContainer)) {
        selection.removeAllRanges();
        selection.addRange(range);
      } else {
        selection.selectAllChildren(element);
        selection.collapseToEnd();
      }
      const before = elementToText(element, selection.getRangeAt(0));
      const lead =
        !isBlock(directive) || before === '' || before.endsWith('\n\n')
          ? ''
          : before.endsWith('\n')
            ? '\n'
            : '\n\n';
      insert(element, `${lead}${directive}${isBlock(directive) ? '\n\n' : ''}`, shows);
    },
  }));

  return (
    // biome-ignore lint/a11y/useSemanticElements: a text area cannot hold what stands in for a number
    <div
      id={id}
      ref={box}
      class="manuscript"
      role="textbox"
      tabIndex={0}
      aria-multiline="true"
      aria-labelledby={labelledBy}
      contentEditable
      spellcheck
      onInput={event => {
        // The browser tells of a moved cursor late; a hand may be in the list by then.
        keepCursor();
        onText(elementToText(event.currentTarget));
      }}
      onKeyUp={keepCursor}
      onBeforeInput={event => {
        const { inputType } = event as unknown as InputEvent;
        if (inputType === 'insertParagraph') {
          event.preventDefault();
          document.execCommand('insertLineBreak');
        } else if (inputType.startsWith('format') || inputType === 'insertFromDrop') event.preventDefault();
      }}
      onPaste={event => {
        event.preventDefault();
        insert(
          event.currentTarget,
          event.clipboardData?.getData('text/plain').replaceAll('\r\n', '\n') ?? '',
          shows,
        );
      }}
      onCopy={event => copy(event)}
      onCut={event => {
        copy(event);
        document.execCommand('delete');
      }}
    />
  );
}

type Shows = ManuscriptProps['shows'];

const labelOf = (directive: string, shows: Shows): string => shows(directive) ?? directiveInShort(directive);

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

const pieceToHtml = (piece: Piece, shows: Shows): string =>
  'text' in piece
    ? escaped(piece.text).replaceAll('\n', '<br>')
    : `<span class="stand-in${isBlock(piece.directive) ? ' block' : ''}" contenteditable="false" data-directive="${escaped(piece.directive)}">${escaped(labelOf(piece.directive, shows))}</span>`;

/** A break that ends the text shows only with another one after it, as browsers write it themselves. */
const textToHtml = (text: string, shows: Shows): string =>
  textToPieces(text)
    .map(piece => pieceToHtml(piece, shows))
    .join('') + (text.endsWith('\n') ? '<br>' : '');

/** At the cursor, in one step of the browser's own undo. */
function insert(box: HTMLElement, text: string, shows: Shows): void {
  const written = text.replace(/\n+$/, '');
  const html = textToPieces(written)
    .map(piece => pieceToHtml(piece, shows))
    .join('');
  document.execCommand('insertHTML', false, html);
  const selection = document.getSelection()!;
  const anchor = selection.anchorNode;
  const inside = (anchor instanceof Element ? anchor : anchor?.parentElement)?.closest('[data-directive]');
  // Browsers leave the cursor in what they have just put in, where nothing can be typed.
  if (inside) {
    const range = document.createRange();
    range.setStartAfter(inside);
    selection.removeAllRanges();
    selection.addRange(range);
  }
  holdOpen(box);
  // Breaks at the end are typed, which leaves the cursor after them.
  for (let i = written.length; i < text.length; i++) document.execCommand('insertLineBreak');
}

/** A cursor can stand after what stands in for a number only where something follows it. */
function holdOpen(box: HTMLElement): void {
  const last = box.lastChild;
  if (last instanceof HTMLElement && last.dataset.directive !== undefined)
    box.append(document.createElement('br'));
}

function copy(event: ClipboardEvent): void {
  const selection = document.getSelection();
  if (!selection?.rangeCount) return;
  event.preventDefault();
  const holder = document.createElement('div');
  holder.append(selection.getRangeAt(0).cloneContents(), document.createElement('br'));
  event.clipboardData?.setData('text/plain', elementToText(holder));
}

/** The plain text of what was written, or of the part before a place. */
function elementToText(element: HTMLElement, before?: Range): string {
  let of: Node = element;
  if (before !== undefined) {
    const range = document.createRange();
    range.selectNodeContents(element);
    range.setEnd(before.startContainer, before.startOffset);
    of = range.cloneContents();
  }
  const text = nodeToText(of);
  // The last break only holds the line open.
  return before === undefined && of.lastChild?.nodeName === 'BR' ? text.slice(0, -1) : text;
}

function nodeToText(node: Node): string {
  if (node.nodeType === Node.TEXT_NODE) return (node as Text).data;
  if (node instanceof HTMLElement && node.dataset.directive !== undefined) return node.dataset.directive;
  if (node.nodeName === 'BR') return '\n';
  return [...node.childNodes].map(nodeToText).join('');
}
