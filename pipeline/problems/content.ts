/** Messages about what people wrote in content/: one function a message, its id permanent. */
import type { Place, Problem, Severity } from '../problem.ts';

const make =
  (id: string, severity: Severity) =>
  (where: Place, what: string, mend: string, facts: { expected?: string; found?: string } = {}): Problem => ({
    id: `content-${id}`,
    severity,
    what,
    where,
    ...facts,
    mend,
  });

const list = (words: readonly string[]): string => (words.length > 0 ? words.join(', ') : 'none yet');
const orNear = (near: string | undefined, otherwise: string): string =>
  near === undefined ? otherwise : `Did you mean ${near}?`;

// The folder and its files.

export const noContentFolder = (file: string): Problem =>
  make('no-folder', 'error')(
    { file },
    'There is no content folder here',
    'Run the command in the project folder, beside package.json.',
  );

export const linkRefused = (file: string): Problem =>
  make('link-refused', 'error')(
    { file },
    'This is a link to another place, and links are not followed',
    'Put the file itself here.',
  );

export const notAFile = (file: string): Problem =>
  make('not-a-file', 'error')(
    { file },
    'This is neither a file nor a folder',
    'Remove it from the content folder.',
  );

export const unreadableFile = (file: string, reason: string): Problem =>
  make('unreadable', 'error')(
    { file },
    'The file cannot be opened',
    'Check that you may read it and that no other program holds it.',
    { found: reason },
  );

export const fileTooLarge = (file: string, bytes: number, limitBytes: number): Problem =>
  make('too-large', 'error')(
    { file },
    'The file is larger than this program reads',
    'Split it, or leave out what is not needed.',
    { expected: `at most ${limitBytes} bytes`, found: `${bytes} bytes` },
  );

export const tooManyFiles = (file: string, limit: number): Problem =>
  make('too-many-files', 'error')(
    { file },
    'The content folder holds too many files',
    'Move what is not part of the publication elsewhere.',
    { expected: `at most ${limit} files` },
  );

export const missingFile = (file: string, whatItIs: string): Problem =>
  make('missing-file', 'error')({ file }, `${whatItIs} is missing`, 'Write this file.');

export const misnamedFile = (file: string, expected: string, mend: string): Problem =>
  make('misnamed-file', 'error')({ file }, 'The name of this file or folder does not fit', mend, {
    expected,
  });

// Text and YAML.

export const notUtf8 = (where: Place, found: string): Problem =>
  make('not-utf8', 'error')(
    where,
    'The file is not written in UTF-8',
    'Save it again with the encoding UTF-8.',
    { found },
  );

export const syntaxFault = (where: Place, what: string, mend: string): Problem =>
  make('syntax', 'error')(where, what, mend);

export const duplicateKey = (where: Place, key: string): Problem =>
  make('duplicate-key', 'error')(where, `${key} is written twice in the same place`, 'Keep one of the two.');

export const tooManyAliases = (where: Place): Problem =>
  make('too-many-aliases', 'error')(
    where,
    'The file repeats parts of itself (& and *) too often to be read',
    'Write the parts out instead.',
  );

export const leadingZero = (where: Place, found: string, read: string): Problem =>
  make('leading-zero', 'warning')(
    where,
    'A number begins with 0, and programs read such numbers differently',
    `Write ${read} if that is meant, or put quotes around it if it is a name.`,
    { found },
  );

// The shape of a file.

export const unknownKey = (
  where: Place,
  key: string,
  near: string | undefined,
  known: readonly string[],
): Problem =>
  make('unknown-key', 'error')(
    where,
    `${key} is not a field here`,
    near === undefined
      ? 'Remove it, or write one of the fields named here.'
      : `Did you mean ${near}?${withoutUnit(key) === withoutUnit(near) ? ' Convert the figure to the unit in this name.' : ''}`,
    near === undefined ? { expected: `one of ${list(known)}` } : {},
  );

/** `wind` of `wind_kmh`; a name of one word is kept. */
const withoutUnit = (name: string): string => name.replace(/_[^_]*$/, '');

export const missingKey = (where: Place, key: string, meaning: string | undefined): Problem =>
  make('missing-key', 'error')(
    where,
    `${key} is missing`,
    `Add a line ${key}: here.${meaning === undefined ? '' : ` It says: ${meaning}.`}`,
  );

export const emptyValue = (where: Place, key: string, meaning: string | undefined): Problem =>
  make('empty-value', 'error')(
    where,
    `${key} has nothing written after it`,
    `Write its value, or remove the line if it may be left out.${meaning === undefined ? '' : ` It says: ${meaning}.`}`,
  );

export const wrongType = (
  where: Place,
  key: string,
  expected: string,
  found: string,
  mend: string,
): Problem =>
  make('wrong-type', 'error')(where, `${key} has the wrong kind of value`, mend, { expected, found });

export const wrongForm = (
  where: Place,
  key: string,
  expected: string,
  found: string,
  mend: string,
): Problem =>
  make('wrong-form', 'error')(where, `${key} is not written as it should be`, mend, { expected, found });

export const outOfRange = (where: Place, key: string, expected: string, found: string): Problem =>
  make('out-of-range', 'error')(
    where,
    `${key} is outside what this field can hold`,
    'Check the figure and its unit; the unit stands in the name of the field.',
    { expected, found },
  );

export const wrongLength = (where: Place, key: string, expected: string, found: string): Problem =>
  make('wrong-length', 'error')(where, `${key} is too short or too long`, 'Write it to fit.', {
    expected,
    found,
  });

export const notAChoice = (
  where: Place,
  key: string,
  choices: readonly string[],
  found: string,
  near: string | undefined,
): Problem =>
  make('not-a-choice', 'error')(
    where,
    `${key} must be one of a few words`,
    orNear(near, 'Write one of the words named here.'),
    { expected: `one of ${list(choices)}`, found },
  );

export const wrongOtherwise = (where: Place, key: string, found: string): Problem =>
  make('wrong-value', 'error')(
    where,
    `${key} cannot be used as it stands`,
    'Compare it with the same field in the demo content.',
    { found },
  );

// Between fields and files.

export const impossibleDate = (where: Place, key: string, found: string): Problem =>
  make('impossible-date', 'error')(where, `${key} is a day that does not exist`, 'Correct the date.', {
    found,
  });

export const publishedBeforeTest = (where: Place, date: string, published: string): Problem =>
  make('published-before-test', 'error')(
    where,
    'The article would go out before the test took place',
    'Correct date or published.',
    { expected: `${date} or later`, found: published },
  );

export const unknownReference = (
  where: Place,
  what: string,
  found: string,
  known: readonly string[],
  near: string | undefined,
  mend: string,
): Problem =>
  make('unknown-reference', 'error')(where, `There is no ${what} ${found}`, orNear(near, mend), {
    expected: `one of ${list(known)}`,
  });

export const duplicateEntry = (
  where: Place,
  what: string,
  found: string,
  firstLine: number | undefined,
): Problem =>
  make('duplicate-entry', 'error')(
    where,
    `The ${what} ${found} is used twice`,
    firstLine === undefined
      ? 'Keep one, or give the other its own.'
      : `It stands on line ${firstLine} already: keep one, or give the other its own.`,
  );

export const pathOutside = (where: Place, found: string): Problem =>
  make('path-outside', 'error')(
    where,
    'The path does not lie inside the folder of this test',
    'Copy the log into the folder logs beside test.yaml, and write its path from there, with forward slashes.',
    { expected: 'a path such as logs/morning.csv', found },
  );

export const missingLog = (where: Place, found: string, near: string | undefined): Problem =>
  make('missing-log', 'error')(
    where,
    `The log ${found} is not there`,
    orNear(near, 'Copy the log there, or correct its name; capital and small letters differ.'),
  );

export const unnamedLog = (where: Place, name: string): Problem =>
  make('unnamed-log', 'note')(
    where,
    'This file lies among the logs, but test.yaml does not name it',
    `Add "- file: ${name}" under logs, or move the file elsewhere.`,
  );

export const attemptWithoutTime = (where: Place): Problem =>
  make('attempt-without-time', 'error')(
    where,
    'The attempt says neither when it began nor which run of a log it is',
    'Write at: "10:22:40", or log: and run:.',
  );

export const runWithoutLog = (where: Place, logs: readonly string[]): Problem =>
  make('run-without-log', 'error')(
    where,
    'The attempt gives the number of a run, but not the log it is in',
    'Add log: with the name of the log.',
    { expected: `one of ${list(logs)}` },
  );

export const logNotListed = (
  where: Place,
  found: string,
  logs: readonly string[],
  near: string | undefined,
): Problem =>
  make('log-not-listed', 'error')(
    where,
    `The log ${found} is not listed under logs`,
    orNear(near, 'Write it as it stands under logs.'),
    { expected: `one of ${list(logs)}` },
  );

export const conditionsOutOfOrder = (where: Place, earlier: string, found: string): Problem =>
  make('conditions-out-of-order', 'error')(
    where,
    'The readings of the conditions are not in the order of time',
    'Put them in the order they were made, or correct the time.',
    { expected: `${earlier} or later`, found },
  );

export const readingLacks = (where: Place, at: string, lacks: readonly string[]): Problem =>
  make('reading-lacks', 'note')(
    where,
    `The reading at ${at} leaves out what an earlier one told: ${list(lacks)}`,
    'Write all values again if they still hold: each attempt takes the last reading before it as a whole.',
  );

export const windIncomplete = (where: Place, missing: string): Problem =>
  make('wind-incomplete', 'warning')(
    where,
    `The wind is told without ${missing}, so the headwind of the attempts cannot be worked out`,
    `Add ${missing}.`,
  );

export const gustBelowWind = (where: Place, windMps: number, gustMps: number): Problem =>
  make('gust-below-wind', 'warning')(
    where,
    'The strongest gust is weaker than the mean wind',
    'Check both figures.',
    { expected: `at least ${windMps} m/s`, found: `${gustMps} m/s` },
  );

export const lighterThanKerb = (where: Place, massKg: number, kerbMassKg: number): Problem =>
  make('lighter-than-kerb', 'warning')(
    where,
    'The car as tested, with people and gear, is lighter than its maker says it is empty',
    'Check mass_kg here and kerb_mass_kg in the car file.',
    { expected: `${kerbMassKg} kg or more`, found: `${massKg} kg` },
  );

export const directionsNotOpposite = (where: Place, apartDeg: number): Problem =>
  make('directions-not-opposite', 'warning')(
    where,
    'The two directions of the road are not opposite',
    'Check heading_deg of both: each is the heading of a car driving that way.',
    { expected: 'about 180 degrees apart', found: `${apartDeg} degrees apart` },
  );

export const profileOutOfOrder = (where: Place, earlierM: number, foundM: number): Problem =>
  make('profile-out-of-order', 'error')(
    where,
    'The distances of the profile do not grow',
    'Put the pairs in the order of distance from the start.',
    { expected: `more than ${earlierM}`, found: String(foundM) },
  );

export const profileBeyondRoad = (where: Place, lengthM: number, foundM: number): Problem =>
  make('profile-beyond-road', 'warning')(
    where,
    'The profile goes on beyond the end of the road',
    'Check length_m and the profile.',
    { expected: `at most ${lengthM} m`, found: `${foundM} m` },
  );

export const slopeStatedTwice = (where: Place, stated: string): Problem =>
  make('slope-stated-twice', 'error')(
    where,
    `The road has a slope in ${stated} and takes it from logs as well`,
    `Take slope_from_logs out, or ${stated}: what was levelled or stated is better than what receivers log.`,
  );

export const restateWithoutCoastDowns = (where: Place): Problem =>
  make('restate-without-coast-downs', 'error')(
    where,
    'Restated figures are to use the coast-downs of this test, but none of its logs has any',
    'Write coast_downs with the directions under a log, or take restate_with out.',
  );

// How plates look.

export const lowContrast = (
  where: Place,
  text: string,
  ground: string,
  colours: readonly [text: string, ground: string],
  ratio: number,
  least: number,
  notSet: string | undefined,
): Problem =>
  make('low-contrast', 'error')(
    where,
    `${text} ${colours[0]} cannot be read well on ${ground} ${colours[1]}, as the picture shines through a little`,
    notSet === undefined
      ? `Make ${text} darker and ${ground} lighter, or the other way round.`
      : `Write ${notSet} as well, to go with it; where it is left out the plain colour is used.`,
    // Cut, not rounded, so that 4.49 is never told as the 4.5 it falls short of.
    { expected: `contrast of ${least}:1 or more`, found: `${Math.floor(ratio * 100) / 100}:1` },
  );

export const logoOutside = (where: Place, found: string): Problem =>
  make('logo-outside', 'error')(
    where,
    'The path of the logo does not lie inside the folder content',
    'Copy the logo into content, and write its path from there, with forward slashes.',
    { expected: 'a path such as logo.svg', found },
  );

export const missingLogo = (where: Place, found: string): Problem =>
  make('missing-logo', 'error')(
    where,
    `The logo ${found} is not there`,
    'Copy it into content, or correct its name; capital and small letters differ.',
  );
