import { describe, expect, it } from 'vitest';
import { main } from '../../pipeline/cli.ts';
import { processIo } from '../../pipeline/command/io.ts';

describe('help', () => {
  it.each(['measure', 'check', 'build', 'plan', 'sign-off', 'frames'])(
    '%s --help tells usage and exit status on standard output, and ends with 0',
    async name => {
      let told = '';
      const io = { ...processIo(), stdout: (text: string) => (told += text), stderr: expect.unreachable };
      expect(await main([name, '--help'], io)).toBe(0);
      expect(told).toMatch(new RegExp(`^Usage: npm run (--silent )?evenground -- ${name}\\b`));
      expect(told).toContain('Exit status: 0');
    },
  );
});
