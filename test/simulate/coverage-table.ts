/** Prints how near simulated figures come and how often their intervals hold: `node test/simulate/coverage-table.ts [runs a cell]`. */
import { type Deviation, KINDS, type Plan, simulateDeviations, summarise } from './coverage.ts';

const [perCellText = '100', ...rest] = process.argv.slice(2);
const extra = rest[0] === undefined ? {} : (JSON.parse(rest[0]) as Partial<Plan>);
const plan: Plan = { seed: 11, perCell: Number(perCellText), paths: 96, ...extra };
const begun = process.cpuUsage();
const { deviations, runs, missed } = simulateDeviations(plan);
const { user } = process.cpuUsage(begun);
const out: string[] = [`${runs} runs, ${missed} not found, ${(user / 1e6).toFixed(1)} s of processor time`];

const groups = (by: (one: Deviation) => string, list: readonly Deviation[]): Map<string, Deviation[]> => {
  const found = new Map<string, Deviation[]>();
  for (const one of list) {
    const key = by(one);
    const group = found.get(key);
    if (group === undefined) found.set(key, [one]);
    else group.push(one);
  }
  return found;
};
const number = (value: number): string => (value * 1000).toFixed(1).padStart(8);
const percent = (value: number): string => (100 * value).toFixed(1).padStart(6);
const line = (name: string, list: readonly Deviation[]): string => {
  const { count, bias, rms, coverage, inUnits } = summarise(list);
  return `${name.padEnd(30)} ${String(count).padStart(6)} ${number(bias)} ${number(rms)} ${percent(coverage)}  ${inUnits.toFixed(2)}`;
};

out.push(`${'thousandths of s, m, m/s'.padEnd(30)}  count     bias      rms  held%  units`);
for (const kind of KINDS) {
  const list = deviations.filter(one => one.kind === kind);
  if (list.length === 0) continue;
  out.push(line(kind, list));
  const rates = [...new Set(list.map(one => one.rateHz))];
  for (const [carId, ofCar] of groups(one => one.carId, list)) {
    const cells = rates.map(rateHz => summarise(ofCar.filter(one => one.rateHz === rateHz)));
    out.push(
      `    ${carId.padEnd(20)} ${cells.map(({ coverage, rms, inUnits }) => `${percent(coverage)} ${inUnits.toFixed(2)} (${(rms * 1000).toFixed(1)})`).join('  ')}`,
    );
  }
}
for (const kind of ['first-movement', 'one-foot', 'stop distance', 'stop time', 'peak'] as const) {
  out.push(`${kind} by shape, by noise`);
  const list = deviations.filter(one => one.kind === kind);
  for (const [shape, of] of groups(one => one.shape, list)) out.push(line(`    ${shape}`, of));
  for (const [noise, of] of groups(one => one.noiseKmh.toFixed(3), list))
    out.push(line(`    ${noise} km/h`, of));
}
process.stdout.write(`${out.join('\n')}\n`);
