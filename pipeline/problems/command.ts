/** Messages about how a command was called, and about files it could not open; ids are permanent. */
import type { Problem } from '../problem.ts';

const usage = (
  id: string,
  what: string,
  mend: string,
  facts: { expected?: string; found?: string } = {},
): Problem => ({
  id: `usage-${id}`,
  severity: 'error',
  what,
  ...facts,
  mend,
});

export const usageNoLog = (accepted: string): Problem =>
  usage(
    'no-log',
    'No log was named',
    `Name one or more logs, or - for standard input. Accepted: ${accepted}.`,
  );

/** `found` is what the person typed. */
export const usageUnknownOption = (found: string, accepted: string): Problem =>
  usage('unknown-option', 'An option is not known', `Leave it out. Accepted: ${accepted}.`, { found });

export const usageOptionValue = (option: string, accepted: string): Problem =>
  usage('option-value', `The option ${option} is not used as it should be`, `Accepted: ${accepted}.`);

export const usageFormat = (found: string, known: readonly string[]): Problem =>
  usage(
    'format',
    'The format is not known',
    'Correct it, or leave --format out: the bytes tell the format.',
    {
      expected: known.join(', '),
      found,
    },
  );

export const usageColumn = (found: string): Problem =>
  usage('column', 'A declared column is not written as it should be', 'Quote it where the name has spaces.', {
    expected: '--column KIND=NAME or KIND=NAME:unit, such as time=t:s',
    found,
  });

export const usageColumnKind = (found: string, known: readonly string[]): Problem =>
  usage('column-kind', 'A declared column has a kind that is not known', 'Correct it.', {
    expected: `one of ${known.join(', ')}`,
    found,
  });

export const usageColumnTwice = (kind: string): Problem =>
  usage('column-twice', `The column for ${kind} is declared twice`, 'Leave one of them out.');

export const usageStdinTwice = (): Problem =>
  usage('stdin-twice', 'Standard input is named twice', 'It can be read once: leave one - out.');

/** `code` is the system's, such as ENOENT. */
export function fileUnreadable(file: string, code: string): Problem {
  const known: Readonly<Record<string, readonly [what: string, mend: string]>> = {
    ENOENT: ['There is no such file', 'Check the name and the folder you are in.'],
    EISDIR: ['This is a folder, not a file', 'Name the logs in it.'],
    EACCES: ['The file may not be read', 'Change its permissions.'],
    EPERM: ['The file may not be read', 'Change its permissions.'],
  };
  const [what, mend] = known[code] ?? [
    `The file cannot be read (${code})`,
    'Copy it to this computer and try again.',
  ];
  return { id: 'file-unreadable', severity: 'error', what, where: { file }, mend };
}

/** A fault of this program while measuring one log; the others go on. */
export const logNotMeasured = (file: string, reason: string): Problem => ({
  id: 'log-not-measured',
  severity: 'error',
  what: `The log could not be measured: ${reason}`,
  where: { file },
  mend: 'This is a fault of the program: please report it with the log.',
});
