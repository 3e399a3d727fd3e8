// Every check of the project: tests, lint and types. Goes on after a failure, so that one run tells all.
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';

const major = Number(process.versions.node.split('.')[0]);
if (major < 24) {
  process.stderr.write(
    `This is Node ${process.versions.node}, and 24 or later is needed. Run \`npm ci\`, which brings it along, then \`npm test\`; ` +
      'if npm was told to ignore install scripts, run `npm rebuild node` once.\n',
  );
  process.exit(2);
}

const report = '.evenground/test-report.json';
mkdirSync('.evenground', { recursive: true });
rmSync(report, { force: true });

/**
 * All side by side. `astro check` finds in every TypeScript file, those of tests included, what `tsc` finds there, and
 * knows pages besides.
 */
const steps = [
  ['tests', 'vitest', ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`]],
  ['lint and format', 'biome', ['check', '--error-on-warnings']],
  ['types', 'astro', ['check', '--minimumFailingSeverity', 'warning']],
];

let passed = 0;
let failed = 0;
let skipped = 0;
const ended = await Promise.all(steps.map((step, index) => run(step, index > 0)));
for (const { command, status, told } of ended) {
  process.stdout.write(told);
  if (command === 'vitest') {
    const tests = readReport();
    passed += tests.passed;
    skipped += tests.skipped;
    // A test run that dies before any test fails has still failed.
    failed += tests.failed === 0 && status !== 0 ? 1 : tests.failed;
  } else if (status === 0) passed += 1;
  else failed += 1;
}

/** @param held whether what it says is given at the end, so that two do not talk at once */
function run([name, command, args], held) {
  const child = spawn(`node_modules/.bin/${command}`, args, {
    stdio: held ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ASTRO_TELEMETRY_DISABLED: '1' },
  });
  if (!held) process.stdout.write(`\n== ${name}\n`);
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', chunk => said.push(chunk));
  return new Promise(done => {
    const end = status => done({ command, status, told: held ? `\n== ${name}\n${Buffer.concat(said)}` : '' });
    child.once('error', error => {
      said.push(Buffer.from(`${error.message}\n`));
      end(1);
    });
    child.once('close', end);
  });
}

function readReport() {
  try {
    const { numPassedTests, numFailedTests, numPendingTests } = JSON.parse(readFileSync(report, 'utf8'));
    return { passed: numPassedTests, failed: numFailedTests, skipped: numPendingTests };
  } catch {
    return { passed: 0, failed: 0, skipped: 0 };
  }
}

if (skipped > 0) process.stdout.write(`\n${skipped} skipped: see the lines above for what they need.\n`);
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
