/** Bytes to text, for every reader. */
import { ProblemError } from '../problem.ts';
import { logTooLarge } from '../problems/log.ts';

/** Largest file read, in bytes: one JavaScript string holds about 537 million characters and no more. */
export const MAX_BYTES = 500e6;

/**
 * A text left in its bytes, of an encoding in which the characters of ASCII are one byte each and no other character
 * holds those bytes: places in it are places in the bytes, and only what is asked for becomes a string.
 */
export class EncodedText {
  readonly bytes: Uint8Array;
  private readonly decoder: TextDecoder;

  constructor(bytes: Uint8Array, encoding: 'utf-8' | 'windows-1252') {
    this.bytes = bytes;
    this.decoder = new TextDecoder(encoding, { ignoreBOM: true });
  }

  slice(start: number, end: number): string {
    const { bytes } = this;
    let isPlain = end - start <= SHORT;
    for (let i = start; isPlain && i < end; i++) isPlain = bytes[i]! < 128;
    const part = bytes.subarray(start, end);
    // A decoder takes several times as long for the few characters of a cell.
    return isPlain ? String.fromCharCode.apply(null, part as unknown as number[]) : this.decoder.decode(part);
  }
}

/** Characters that are cheaper to take one by one. */
const SHORT = 40;

/**
 * A log's text in UTF-8, UTF-16 with a byte-order mark, or else Windows-1252 (Latin-1 with its `°` and `²`).
 * The byte-order mark is not part of the text.
 * @throws ProblemError where the file is larger than {@link MAX_BYTES}.
 */
export function bytesToEncoded(file: string, bytes: Uint8Array): EncodedText {
  if (bytes.length > MAX_BYTES) throw new ProblemError(logTooLarge(file, bytes.length, MAX_BYTES));
  const wide = wideEncoding(bytes);
  if (wide) return new EncodedText(new TextEncoder().encode(new TextDecoder(wide).decode(bytes)), 'utf-8');
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const unmarked = marked ? bytes.subarray(3) : bytes;
  return new EncodedText(unmarked, isUtf8(unmarked) ? 'utf-8' : 'windows-1252');
}

/** The same as one string. */
export function bytesToText(file: string, bytes: Uint8Array): string {
  const text = bytesToEncoded(file, bytes);
  return text.slice(0, text.bytes.length);
}

function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  return bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : undefined;
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    // In parts, so that a large log does not become a string as large only to be looked at.
    const decoder = new TextDecoder('utf-8', { fatal: true });
    for (let at = 0; at < bytes.length; at += PART) {
      decoder.decode(bytes.subarray(at, at + PART), { stream: at + PART < bytes.length });
    }
    return true;
  } catch {
    return false;
  }
}

const PART = 1 << 20;

/** True where the text has characters that no table or sentence has: NUL, or many other control characters. */
export function looksBinary(head: string): boolean {
  let controls = 0;
  for (let i = 0; i < head.length; i++) {
    const code = head.charCodeAt(i);
    if (code === 0) return true;
    if (code < 32 && code !== 9 && code !== 10 && code !== 13) controls++;
  }
  return controls > head.length / 50;
}
