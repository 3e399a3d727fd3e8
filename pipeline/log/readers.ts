/** The log formats, and the one way into them: bytes in, a log or one clear problem out. */
import { ProblemError } from '../problem.ts';
import { logBinary, logEmpty, logOtherXml, logWebPage } from '../problems/log.ts';
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
