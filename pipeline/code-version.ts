/** Which version of the program made something: the package's, and the commit where git can tell. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const GIT_TIMEOUT_MS = 5000;
const COMMIT_DIGITS = 12;
/** What numbers are made by; a changed article or log is no other program. */
const CODE = ['pipeline', 'package.json', 'package-lock.json'];

/**
 * `0.1.0`, `0.1.0, commit 962211c3ab12` or `0.1.0, commit 962211c3ab12 and changes since`. `root` is the project's;
 * without git, or where the project is not the top of a checkout, the package's version stands alone.
 */
export function codeVersion(root: string): string {
  const { version = 'unknown' } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    version?: string;
  };
  const prefix = git(root, 'rev-parse', '--show-prefix');
  const commit = prefix === '' ? git(root, 'rev-parse', `--short=${COMMIT_DIGITS}`, 'HEAD') : undefined;
  const changed = commit === undefined ? undefined : git(root, 'status', '--porcelain', '--', ...CODE);
  if (commit === undefined || changed === undefined) return version;
  return `${version}, commit ${commit}${changed === '' ? '' : ' and changes since'}`;
}

/** What git prints, without the line's end; undefined where it cannot say. */
function git(root: string, ...args: readonly string[]): string | undefined {
  try {
    return execFileSync('git', args, {
      cwd: root,
      encoding: 'utf8',
      timeout: GIT_TIMEOUT_MS,
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, GIT_OPTIONAL_LOCKS: '0' },
    }).trim();
  } catch {
    return undefined;
  }
}
