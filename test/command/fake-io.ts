/** The outside of a command as a test sees it: files in memory, and what was written. */
import type { MeasureIo } from '../../pipeline/command/measure.ts';

export interface Outcome {
  readonly exit: number;
  readonly stdout: string;
  readonly stderr: string;
}

const bytes = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

/** Runs a command over files by name; `-` is standard input. */
export async function runWith(
  command: (args: readonly string[], io: MeasureIo) => Promise<number>,
  args: readonly string[],
  files: Readonly<Record<string, string | Uint8Array>> = {},
): Promise<Outcome> {
  let stdout = '';
  let stderr = '';
  const exit = await command(args, {
    stdout: text => {
      stdout += text;
    },
    stderr: text => {
      stderr += text;
    },
    stdin: async () => bytes(files['-'] ?? ''),
    readFile: async path => {
      const content = files[path];
      if (content === undefined) throw Object.assign(new Error(`no ${path}`), { code: 'ENOENT' });
      return bytes(content);
    },
    isTerminal: false,
  });
  return { exit, stdout, stderr };
}
