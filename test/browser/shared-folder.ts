/** A folder that all files of one test run share, for what is built once; removed at the end. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    sharedFolder: string;
  }
}

export default function setup(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'evenground-tests-'));
  project.provide('sharedFolder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
