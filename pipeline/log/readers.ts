/** The log formats, and the one way into them: bytes in, a log or one clear problem out. */
import { ProblemError } from '../problem.ts';
import { emptyTail, logBinary, logEmpty, logOtherXml, logWebPage } from '../problems/log.ts';
import { bytesToText, looksBinary } from './bytes.ts';
import { csv } from './csv.ts';
import { gpx } from './gpx.ts';
import type { Log, LogFormat, LogReader, ReadOptions } from './log.ts';
import { nmea } from './nmea.ts';

/** Every log format. A new one is a file beside this and a line here. */
export const READERS: Readonly<Record<LogFormat, LogReader>> = { nmea, gpx, csv };

/** Bytes from the beginning that are looked at to recognise a format. */
const HEAD_BYTES = 1 << 16;

/**
 * Reads a log of any known format, recognised from its bytes alone.
 * @param file name for messages
 * @throws ProblemError with exactly one problem where nothing can be measured from it.
 */
export function readLog(file: string, bytes: Uint8Array, options: ReadOptions = {}): Log {
  const written = withoutEmptyTail(bytes);
  if (written.length === bytes.length) return readWhole(file, bytes, options);
  const log = readWhole(file, written, options);
  return { ...log, warnings: [...log.warnings, emptyTail(bytes.length - written.length)] };
}

/**
 * The bytes without zeros at the end: a recorder that loses power leaves room it had not written to yet.
 * UTF-16 ends with a zero of its own, and a file of zeros alone is no log: both stay as they are.
 */
function withoutEmptyTail(bytes: Uint8Array): Uint8Array {
  if (bytes[0] === 0xff || bytes[0] === 0xfe) return bytes;
  let end = bytes.length;
  while (end > 0 && bytes[end - 1] === 0) end--;
  return end === 0 ? bytes : bytes.subarray(0, end);
}

function readWhole(file: string, bytes: Uint8Array, options: ReadOptions): Log {
  const head = bytesToText(file, bytes.subarray(0, HEAD_BYTES));
  if (head.trim() === '' && bytes.length <= HEAD_BYTES) throw new ProblemError(logEmpty(file));
  const format = options.format ?? recognise(file, head);
  return READERS[format].read(file, bytes, options);
}

function recognise(file: string, head: string): LogFormat {
  // Sentences first: receivers write noise between them that would look binary.
  if (nmea.recognises(head)) return 'nmea';
  if (looksBinary(head)) throw new ProblemError(logBinary(file));
  if (gpx.recognises(head)) return 'gpx';
  if (/^\s*(<!doctype html|<html)/i.test(head)) throw new ProblemError(logWebPage(file));
  if (/^\s*<[?!\w]/.test(head)) throw new ProblemError(logOtherXml(file));
  return 'csv';
}
