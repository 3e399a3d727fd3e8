/** The demo publication, put together once for all test files that a worker runs. */
import { resolve } from 'node:path';
import { loadPublication } from '../pipeline/pipeline.ts';
import type { Publication } from '../pipeline/result/result.ts';

let loaded: Promise<Publication> | undefined;

export function demoPublication(): Promise<Publication> {
  loaded ??= loadPublication(resolve(import.meta.dirname, '..'));
  return loaded;
}
