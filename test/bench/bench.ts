// Work of the product beside a plain way of doing the same: `npm run bench`, or `npm run bench -- charts` for one part.
// Ratios are what counts; milliseconds depend on the machine. The report is .evenground/bench.json.
import { fork } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import type { Bench, Told } from './part.ts';

/** Each a process of its own: `part-<name>.ts`. */
const PARTS = ['log', 'charts', 'frames', 'large-logs', 'page'] as const;
const asked = process.argv.slice(2);
const unknown = asked.filter(name => !PARTS.some(part => part === name));
if (unknown.length > 0) {
  process.stderr.write(`No part of the bench: ${unknown.join(', ')}. There are ${PARTS.join(', ')}.\n`);
  process.exit(2);
}

interface Part {
  readonly name: string;
  readonly benches: readonly Bench[];
  /** Of the part's own process, without a browser's. */
  readonly peakMb: number;
}

function runPart(name: string): Promise<Part> {
  const child = fork(join(import.meta.dirname, `part-${name}.ts`), { execArgv: ['--expose-gc'] });
  const benches: Bench[] = [];
  let peakMb = 0;
  child.on('message', (told: Told) => {
    if ('bench' in told) {
      benches.push(told.bench);
      print(told.bench);
    } else {
      peakMb = told.peakMb;
    }
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', code => {
      if (code === 0) resolve({ name, benches, peakMb });
      else reject(new Error(`The part ${name} ended with ${code}.`));
    });
  });
}

function print({ name, of, timings }: Bench): void {
  process.stdout.write(`\n${name} (${of})\n`);
  for (const { name: way, ms, ratioToFirst } of timings)
    process.stdout.write(
      `  ${way.padEnd(48)} ${ms.toFixed(1).padStart(9)} ms  × ${ratioToFirst.toFixed(2)}\n`,
    );
}

const parts: Part[] = [];
for (const name of PARTS.filter(part => asked.length === 0 || asked.includes(part))) {
  const part = await runPart(name);
  process.stdout.write(`  most memory held by this part: ${part.peakMb} MB\n`);
  parts.push(part);
}

const machine = {
  node: process.version,
  cores: cpus().length,
  memoryGb: Math.round(totalmem() / 2 ** 30),
  sharp: sharp.versions,
};
mkdirSync('.evenground', { recursive: true });
writeFileSync('.evenground/bench.json', `${JSON.stringify({ machine, parts }, null, 2)}\n`);
process.stdout.write('\nReport: .evenground/bench.json\n');
