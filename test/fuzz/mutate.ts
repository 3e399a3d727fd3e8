/** Inputs damaged at random: bytes, words, lines, and words of the format put where they do not belong. */
import type { Random } from '../simulate/random.ts';

const ENCODER = new TextEncoder();

/** What files of any kind are damaged with; each target adds the words of its own format. */
const TOKENS = [
  '\0',
  '\r',
  '\n',
  '\r\n',
  '\t',
  ' ',
  '\u00a0',
  '\u2028',
  '\ufeff',
  '\u202e',
  'é',
  '€',
  '😀',
  '"',
  "'",
  '`',
  ',',
  ';',
  ':',
  '.',
  '-',
  '+',
  '0',
  '-1',
  '9',
  '1e5',
  '1e999',
  '-1e-400',
  '0x1F',
  'NaN',
  'Infinity',
  'null',
  'true',
  '1,5',
  '1.234.5',
  '99999999999999999999',
  '<script>',
  '&amp;',
  '&lt;',
  ']]>',
  '{{x}}',
  '__proto__',
  'constructor',
  '../',
  '%00',
  '#',
  '*',
];

/** Applies one to four kinds of damage to a copy. */
export function mutate(bytes: Uint8Array, tokens: readonly string[], random: Random): Uint8Array {
  let damaged = bytes;
  for (let left = random.whole(1, 4); left > 0; left--) damaged = damage(damaged, tokens, random);
  return damaged;
}

function damage(bytes: Uint8Array, tokens: readonly string[], random: Random): Uint8Array {
  const at = random.whole(0, bytes.length);
  const token = (): Uint8Array => ENCODER.encode(random.pick(random.chance(0.5) ? tokens : TOKENS));
  const [before, after] = [bytes.subarray(0, at), bytes.subarray(at)];
  switch (random.whole(0, 9)) {
    case 0:
      return random.chance(0.3) ? before : joined(before, after.subarray(random.whole(1, 200)));
    case 1:
      return joined(before, Uint8Array.of(random.whole(0, 255)), after.subarray(1));
    case 2:
      return flipped(bytes, at, random);
    case 3:
    case 4:
      return joined(before, token(), after);
    case 5: {
      const put = token();
      return joined(before, put, after.subarray(put.length));
    }
    case 6:
      return joined(before, after.subarray(0, random.whole(1, 400)), after);
    case 7:
      return lines(bytes, random);
    case 8:
      return word(bytes, at, token(), random);
    default:
      return digit(bytes, at, random);
  }
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function flipped(bytes: Uint8Array, at: number, random: Random): Uint8Array {
  const copy = bytes.slice();
  if (at < copy.length) copy[at]! ^= 1 << random.whole(0, 7);
  return copy;
}

/** A line lost, written twice, or in another place. */
function lines(bytes: Uint8Array, random: Random): Uint8Array {
  const starts = [0];
  for (let i = 0; i < bytes.length; i++) if (bytes[i] === 10) starts.push(i + 1);
  const nth = random.whole(0, starts.length - 1);
  const [from, to] = [starts[nth]!, starts[nth + 1] ?? bytes.length];
  const line = bytes.subarray(from, to);
  const without = joined(bytes.subarray(0, from), bytes.subarray(to));
  const kind = random.whole(0, 2);
  if (kind === 0) return without;
  const place = kind === 1 ? from : Math.min(without.length, random.pick(starts));
  const rest = kind === 1 ? bytes : without;
  return joined(rest.subarray(0, place), line, rest.subarray(place));
}

const isWord = (code: number | undefined): boolean =>
  code !== undefined &&
  ((code >= 48 && code <= 57) || (code >= 65 && code <= 90) || (code >= 97 && code <= 122) || code === 46);

/** The word or number around a place exchanged for another. */
function word(bytes: Uint8Array, at: number, other: Uint8Array, random: Random): Uint8Array {
  let [from, to] = [at, at];
  while (from > 0 && isWord(bytes[from - 1])) from--;
  while (isWord(bytes[to])) to++;
  return joined(bytes.subarray(0, from), random.chance(0.2) ? new Uint8Array() : other, bytes.subarray(to));
}

/** The next digit after a place exchanged for another: the damage that looks most like data. */
function digit(bytes: Uint8Array, at: number, random: Random): Uint8Array {
  const copy = bytes.slice();
  let i = at;
  while (i < copy.length && !(copy[i]! >= 48 && copy[i]! <= 57)) i++;
  if (i < copy.length) copy[i] = 48 + random.whole(0, 9);
  return copy;
}
