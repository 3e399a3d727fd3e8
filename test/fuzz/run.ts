// A long run of random damage: `npm run fuzz -- [RUNS] [SEED] [TARGET]`. Inputs that failed stand in .evenground/fuzz/.
import { mkdirSync, writeFileSync } from 'node:fs';
import { fuzz, TARGETS } from './fuzz.ts';

const [runs = '100000', seed = '1', only] = process.argv.slice(2);
const chosen = TARGETS.filter(({ name }) => only === undefined || name === only);
if (chosen.length === 0 || !(Number(runs) > 0) || !Number.isFinite(Number(seed))) {
  process.stderr.write(
    `Usage: npm run fuzz -- [RUNS] [SEED] [${TARGETS.map(({ name }) => name).join('|')}]\n`,
  );
  process.exit(2);
}
const each = Math.ceil(Number(runs) / chosen.length);
let count = 0;
for (const target of chosen) {
  const began = performance.now();
  const step = Math.max(1, Math.floor(each / 10));
  const { outcomes, slowestMs, faults } = fuzz(target, each, Number(seed), done => {
    if (done % step === 0) process.stderr.write(`${target.name}: ${done} of ${each}\n`);
  });
  const tookS = (performance.now() - began) / 1000;
  process.stdout.write(
    `${target.name}: ${each} inputs in ${tookS.toFixed(0)} s, ${outcomes} outcomes, slowest ${slowestMs.toFixed(0)} ms, ${faults.length} kinds of fault\n`,
  );
  for (const { what, input } of faults) {
    const file = `.evenground/fuzz/${target.name}-${++count}.bin`;
    mkdirSync('.evenground/fuzz', { recursive: true });
    writeFileSync(file, input);
    process.stdout.write(`  ${file}: ${what.split('\n').slice(0, 6).join('\n    ')}\n`);
  }
}
process.exitCode = count === 0 ? 0 : 1;
