/** What the desk answers with, and how it says no. */
import type { ServerResponse } from 'node:http';
import { type Problem, ProblemError } from '../problem.ts';
import { deskFault } from '../problems/desk.ts';
import { diskProblem } from '../problems/disk.ts';
import { ChangedMeanwhile } from './store.ts';

export interface Answer {
  readonly type: string;
  readonly body: string | Uint8Array;
  /** Name of a download. */
  readonly name?: string;
}

export const json = (value: unknown): Answer => ({ type: 'application/json', body: JSON.stringify(value) });

export function give(response: ServerResponse, { type, body, name }: Answer): void {
  response.writeHead(200, {
    'content-type': type,
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    ...(name === undefined ? {} : { 'content-disposition': `attachment; filename="${name}"` }),
  });
  response.end(body);
}

/** Says no with problems in words: 409 where a file changed meanwhile, 400 for the rest, 500 for faults of the program. */
export function refuse(response: ServerResponse, error: unknown, status?: number): void {
  const disk = diskProblem(error);
  const problems: readonly Problem[] =
    error instanceof ProblemError
      ? error.problems
      : [disk ?? deskFault(error instanceof Error ? error.message : String(error))];
  const conflict = error instanceof ChangedMeanwhile ? { conflict: error.conflict } : {};
  const code = status ?? ('conflict' in conflict ? 409 : error instanceof ProblemError ? 400 : 500);
  response.writeHead(code, {
    'content-type': 'application/json',
    'cache-control': 'no-store',
    connection: 'close',
  });
  response.end(JSON.stringify({ ok: false, problems, ...conflict }));
}
