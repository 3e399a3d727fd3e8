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
  // The folder's path within the checkout, and a line below it the commit.
  const [prefix, commit] = git(root, 'rev-parse', '--show-prefix', `--short=${COMMIT_DIGITS}`, 'HEAD') ?? [];
  if (prefix !== '' || commit === undefined) return version;
  const changed = git(root, 'status', '--porcelain', '--', ...CODE);
  if (changed === undefined) return version;
  return `${version}, commit ${commit}${changed.length === 0 ? '' : ' and changes since'}`;
}

/** The lines that git prints; undefined where it cannot say. */
function git(root: string, ...args: readonly string[]): readonly string[] | undefined {
  try {
    const printed = execFileSync('git', args, {
      cwd: root,
      encoding: 'utf8',
      timeout: GIT_TIMEOUT_MS,
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, GIT_OPTIONAL_LOCKS: '0' },
    });
    return printed === '' ? [] : printed.trimEnd().split('\n');
  } catch {
    return undefined;
  }
}
