/** `evenground COMMAND …`: the commands, their help and exit codes. */
import { type Io, processIo } from './command/io.ts';
import { ProblemError, problemToLine } from './problem.ts';
import { diskProblem } from './problems/disk.ts';

interface Command {
  readonly usage: string;
  readonly does: string;
  load(): Promise<(args: readonly string[], io: Io) => Promise<number>>;
}

/** Each is loaded only when called: measuring a log should not wait for the chart libraries. */
const COMMANDS: Readonly<Record<string, Command>> = {
  measure: {
    usage: 'measure LOG [LOG …] [--json] [--format csv|nmea|gpx] [--column time=NAME[:unit]] …',
    does: 'find the runs in logs and print their figures',
    load: async () => (await import('./command/measure.ts')).runMeasure,
  },
  check: {
    usage: 'check [--write-schemas]',
    does: 'read everything under content/ and say what is wrong, with file, line and column',
    load: async () => (await import('./command/check.ts')).runCheck,
  },
  build: {
    usage: 'build',
    does: 'make figures, tables, overlays and the site into dist/',
    load: async () => (await import('./command/build.ts')).runBuild,
  },
  desk: {
    usage: 'desk [--port N] [--root FOLDER]',
    does: 'open the local page in the browser where a test is put together; also: npm start',
    load: async () => (await import('./command/desk.ts')).runDesk,
  },
  new: {
    usage: 'new test|car|road NAME',
    does: 'write a file to fill in, for those who prefer files to the desk',
    load: async () => (await import('./command/new.ts')).runNew,
  },
  plan: {
    usage: 'plan --car CAR --road ROAD [--test TEST] [--wet] [--load KG] [--reserve M] [--card FILE] …',
    does: 'work out which speeds a road has room for, with braking and a reserve, as metres from the start',
    load: async () => (await import('./command/plan.ts')).runPlan,
  },
  'sign-off': {
    usage: 'sign-off TEST [--again] [--date YYYY-MM-DD]',
    does: 'record the numbers of a test as they go out; later builds fail where one moves without a correction',
    load: async () => (await import('./command/sign-off.ts')).runSignOff,
  },
  frames: {
    usage: 'frames TEST ATTEMPT [--rate 25] [--size 1920x1080] [--moves-at FRAME|TIMECODE] [--movie png] …',
    does: 'draw one run as numbered pictures whose clock runs with the film, with lists for editing',
    load: async () => (await import('./command/frames.ts')).runFrames,
  },
};

const HELP = `Usage: npm run evenground -- COMMAND …

${Object.values(COMMANDS)
  .map(({ usage, does }) => `  ${usage}\n      ${does}`)
  .join('\n')}

Exit status: 0 done; 1 something could not be read, checked or made; 2 wrong usage.
`;

/**
 * Runs one command.
 * @returns the exit status; a stack trace never reaches the person unless EVENGROUND_DEBUG is set
 */
export async function main(args: readonly string[], io: Io = processIo()): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    io.stdout(HELP);
    return name === undefined ? 2 : 0;
  }
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!command) {
    io.stderr(`evenground: no command '${name}'. There are: ${Object.keys(COMMANDS).join(', ')}.\n`);
    return 2;
  }
  try {
    const run = await command.load();
    return await run(rest, io);
  } catch (error) {
    if (error instanceof ProblemError) {
      for (const problem of error.problems) io.stderr(`${problemToLine(problem)}\n`);
      return 1;
    }
    if (process.env.EVENGROUND_DEBUG) throw error;
    const disk = diskProblem(error);
    if (disk) {
      io.stderr(`${problemToLine(disk)}\n`);
      return 1;
    }
    const text = error instanceof Error ? error.message : String(error);
    io.stderr(
      `evenground ${name}: stopped by a fault of the program: ${text.split('\n')[0]}. ` +
        'Please report it; EVENGROUND_DEBUG=1 prints where it happened.\n',
    );
    return 1;
  }
}
