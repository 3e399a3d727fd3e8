/** Bytes of a written file as text; UTF-8 and nothing else. */
import type { Problem } from '../problem.ts';
import { fileTooLarge, notUtf8 } from '../problems/content.ts';
import { WRITTEN_LIMIT_BYTES } from './files.ts';

export type TextOrProblem = { readonly text: string } | { readonly problem: Problem };

/** Reads UTF-8, with or without a byte-order mark; says at which line another encoding shows itself. */
export function bytesToText(file: string, bytes: Uint8Array): TextOrProblem {
  if (bytes.length > WRITTEN_LIMIT_BYTES) {
    return { problem: fileTooLarge(file, bytes.length, WRITTEN_LIMIT_BYTES) };
  }
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return { problem: notUtf8({ file, line: 1, column: 1 }, 'UTF-16') };
  }
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    const nul = text.indexOf('\0');
    if (nul < 0) return { text };
    return {
      problem: notUtf8(placeOf(file, text.slice(0, nul)), 'a zero byte, as in programs and pictures'),
    };
  } catch {
    return { problem: firstBadByte(file, bytes) };
  }
}

function placeOf(file: string, before: string): { file: string; line: number; column: number } {
  const lines = before.split('\n');
  return { file, line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}

/** The longest beginning of the file that decodes, by halving: a beginning of good text is good text. */
function firstBadByte(file: string, bytes: Uint8Array): Problem {
  let good = 0;
  let bad = bytes.length + 1;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, middle), { stream: true });
      good = middle;
    } catch {
      bad = middle;
    }
  }
  // A character that was begun and never ended is where the fault lies, not the byte after it.
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  const before = decoder.decode(bytes.subarray(0, good), { stream: true });
  const byte = bytes[new TextEncoder().encode(before).length] ?? 0;
  return notUtf8(placeOf(file, before), `the byte ${byte.toString(16).padStart(2, '0')}`);
}
