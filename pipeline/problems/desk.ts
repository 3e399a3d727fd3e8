/** Messages of the desk: requests refused, files that changed meanwhile; ids are permanent. */
import type { Problem } from '../problem.ts';

const desk = (id: string, what: string, mend: string, more: Partial<Problem> = {}): Problem => ({
  id: `desk-${id}`,
  severity: 'error',
  what,
  mend,
  ...more,
});

export const notThisMachine = (): Problem =>
  desk(
    'not-this-machine',
    'The desk answers this machine only',
    'Open it in a browser on the machine it was started on.',
  );

export const foreignPage = (): Problem =>
  desk(
    'foreign-page',
    'The request does not come from the desk’s own page',
    'Open the address that the terminal printed when the desk was started.',
  );

export const wrongToken = (): Problem =>
  desk(
    'wrong-token',
    'The page was opened in an earlier start of the desk',
    'Open the address that the terminal printed when it was started last; what was typed is kept.',
  );

export const noSuchRequest = (method: string, path: string): Problem =>
  desk('no-such-request', 'The desk does not know this request', 'Load the page again.', {
    found: `${method} ${path}`,
  });

export const bodyTooLarge = (limitBytes: number): Problem =>
  desk(
    'too-large',
    `What was sent is larger than ${Math.round(limitBytes / 2 ** 20)} MiB`,
    'Split the log where the recorder was stopped, or put it into the test’s folder by hand.',
  );

export const bodyUnreadable = (expected: string): Problem =>
  desk('unreadable', 'What was sent could not be read', 'Load the page again.', { expected });

export const nothingThere = (what: string, id: string): Problem =>
  desk(
    'nothing-there',
    `There is no ${what} of this name`,
    'Load the page again; it may have been renamed on the disk.',
    {
      found: id,
    },
  );

export const outsideContent = (path: string): Problem =>
  desk(
    'outside-content',
    'A path leads outside the content folder, or through a link',
    'Choose another name.',
    { found: path },
  );

export const changedMeanwhile = (file: string): Problem =>
  desk(
    'changed-meanwhile',
    'The file was changed elsewhere since it was read here',
    'Look at both versions and choose; nothing was written.',
    { where: { file } },
  );

export const notYaml = (file: string, why: string): Problem =>
  desk(
    'not-yaml',
    'The file cannot be changed as long as its YAML is broken',
    'Mend it in an editor first; `npm run check` tells where.',
    {
      where: { file },
      found: why.split('\n')[0] ?? '',
    },
  );

export const nothingToUndo = (which: 'undo' | 'redo'): Problem =>
  desk(
    'nothing-to-undo',
    which === 'undo' ? 'There is nothing to take back' : 'There is nothing to put in again',
    'The file may have been changed elsewhere since.',
  );

export const takenName = (id: string): Problem =>
  desk('taken-name', 'There is one of this name already', 'Choose another name.', { found: id });

export const cannotBeShown = (what: string, reason: string): Problem =>
  desk('cannot-be-shown', `${what} cannot be shown`, reason);

export const deskFault = (message: string): Problem =>
  desk(
    'fault',
    `The desk stopped at a fault of the program: ${message.split('\n')[0]}`,
    'Please report it; nothing was written.',
  );
