/** What a request carries, read no further than it may be large. */
import type { IncomingMessage } from 'node:http';
import { ProblemError } from '../problem.ts';
import { bodyTooLarge, bodyUnreadable } from '../problems/desk.ts';

export const JSON_LIMIT_BYTES = 2 ** 20;
export const LOG_LIMIT_BYTES = 64 * 2 ** 20;

/** @throws ProblemError where it is larger than the limit, as soon as that is known. */
export async function readBody(request: IncomingMessage, limitBytes: number): Promise<Uint8Array> {
  if (Number(request.headers['content-length'] ?? 0) > limitBytes)
    throw new ProblemError(bodyTooLarge(limitBytes));
  const parts: Buffer[] = [];
  let sizeBytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    sizeBytes += part.length;
    if (sizeBytes > limitBytes) throw new ProblemError(bodyTooLarge(limitBytes));
    parts.push(part);
  }
  return new Uint8Array(Buffer.concat(parts));
}

/** @throws ProblemError where it is no JSON object. */
export async function readJson(request: IncomingMessage): Promise<Readonly<Record<string, unknown>>> {
  const bytes = await readBody(request, JSON_LIMIT_BYTES);
  try {
    const value: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    if (typeof value === 'object' && value !== null && !Array.isArray(value))
      return value as Record<string, unknown>;
  } catch {
    // Told below, whatever was wrong with it.
  }
  throw new ProblemError(bodyUnreadable('a JSON object'));
}
