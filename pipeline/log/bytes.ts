/** Bytes to text, for every reader. */
import { ProblemError } from '../problem.ts';
import { logTooLarge } from '../problems/log.ts';

/** Largest file read, in bytes: one JavaScript string holds about 537 million characters and no more. */
export const MAX_BYTES = 500e6;

/**
 * Text of a log in UTF-8, UTF-16 with a byte-order mark, or else Windows-1252 (Latin-1 with its `°` and `²`).
 * The byte-order mark is not part of the text.
 * @throws ProblemError where the file is larger than {@link MAX_BYTES}.
 */
export function bytesToText(file: string, bytes: Uint8Array): string {
  if (bytes.length > MAX_BYTES) throw new ProblemError(logTooLarge(file, bytes.length, MAX_BYTES));
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return bytesToLatin1(bytes);
  }
}

/** One character a byte, never failing: for formats in ASCII that may have noise between their lines. */
export function bytesToLatin1(bytes: Uint8Array): string {
  return new TextDecoder('windows-1252').decode(bytes);
}

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
