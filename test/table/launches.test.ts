import { describe, expect, it } from 'vitest';
import { launchesTable } from '../../pipeline/table/launches.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

describe('the table of launches', () => {
  const test = testFixture();
  const table = launchesTable(test, houseFixture());

  it('has a row for every standing start, one given up and one set aside among them', () => {
    const starts = test.attempts.filter(({ measurement }) => measurement.run.kind === 'standing-start');
    expect(table.rows.map(row => row[1]!.text)).toEqual(starts.map(({ number }) => String(number)));
    expect(table.caption).toBe('Launches of the day: 10 standing starts, 1 of them given up');
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  });

  it('counts every method in its notes and warrants nothing', () => {
    expect(table.notes[0]).toMatch(
      /^By method: Plain throttle: 3.*; Brake and throttle: 4.*; Sport setting: 3 \(1 given up\)/,
    );
    expect(table.notes.at(-1)).toContain('does not tell how hot anything was');
  });

  it('tells heat only where a clutch slips, and says otherwise why there is none', () => {
    const heats = (gearbox: string) =>
      launchesTable({ ...test, car: { ...test.car, gearbox } }, houseFixture());
    expect(heats('single-speed').notes).toContain('No heat is given where no clutch slips at a start.');
    expect(heats('five-speed manual').notes.join(' ')).toContain('neither engine speed nor a gear change');
  });

  it('of a test without starts says so', () => {
    const none = launchesTable({ ...test, attempts: [] }, houseFixture());
    expect([none.rows, none.notes]).toEqual([[], ['No attempt began from rest.']]);
  });
});
