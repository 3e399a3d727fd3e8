import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';
import LongestFirst from './test/order.ts';

export default defineConfig({
  test: {
    // The default leaves one core idle, which is half of a small machine; and browser tests often wait for a page.
    maxWorkers: availableParallelism() + 1,
    sequence: { sequencer: LongestFirst },
    // Programs that tests start in folders of their own share what is compiled.
    env: { NODE_COMPILE_CACHE: join(import.meta.dirname, '.evenground/compiled') },
    projects: [
      {
        test: {
          name: 'unit',
          include: ['test/**/*.test.ts'],
          exclude: ['test/browser/**'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // No test changes what another could see, and loading every module anew for each file took longer than many tests.
          isolate: false,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 300_000,
          globalSetup: ['test/browser/shared-folder.ts'],
          isolate: false,
        },
      },
    ],
  },
});
