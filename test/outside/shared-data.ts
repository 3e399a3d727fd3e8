/**
 * The folder of recorded data and published tables that stands beside a checkout, `../shared`.
 *
 * Nothing in it is copied into the project. Where it is absent its tests are skipped, and say so.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe } from 'vitest';

const shared = fileURLToPath(new URL('../../../shared/', import.meta.url));

/** Path of `../shared/NAME` (a file or a folder), or undefined where it is absent. */
export function sharedPath(name: string): string | undefined {
  const path = shared + name;
  return existsSync(path) ? path : undefined;
}

/** Path of the folder of recorded data, without a slash at its end, or undefined where it is absent. */
export function sharedDataFolder(): string | undefined {
  return sharedPath('data');
}

/** `describe` for tests that read recorded data; `fn` gets the folder's path, and is not called without it. */
export function describeWithSharedData(title: string, fn: (folder: string) => void): void {
  const folder = sharedDataFolder();
  if (folder !== undefined) {
    describe(title, () => fn(folder));
    return;
  }
  process.stderr.write(`Skipped, ../shared/data is absent: ${title}\n`);
  describe.skip(`${title} (skipped: ../shared/data is absent)`, () => {});
}
