/** What follows a change on the disk, and what stays as it was. */
import { readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Desk } from '../../pipeline/desk/desk.ts';
import { copiedContent, onlyTests, removeContent } from './running-desk.ts';

const DRY = 'quillet-sorrel-dry';
const WET = 'quillet-sorrel-wet';

// One desk for all: what it has measured it measures no second time, and each change below goes on from the last.
let root: string;
let desk: Desk;
beforeAll(() => {
  root = copiedContent(onlyTests(DRY, WET));
  desk = new Desk(root);
});
afterAll(() => removeContent(root));

const edit = (file: string, from: RegExp, to: string): void => {
  const path = join(root, 'content', file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  expect(after, `${file} has ${from}`).not.toBe(before);
  writeFileSync(path, after);
};
const opened = async (id = DRY) => desk.open(await desk.now(), id);

describe('between two changes', () => {
  it('nothing is put together twice, whatever the times of the files say', async () => {
    const first = await opened();
    utimesSync(join(root, `content/tests/${DRY}/test.yaml`), new Date(), new Date());
    expect(await opened()).toBe(first);
  }, 60_000);
});

describe('a change on the disk', () => {
  it('of one test is followed by that test and leaves the others as they were', async () => {
    const before = await opened();
    edit(`tests/${DRY}/test.yaml`, /mass_kg: \d+/, 'mass_kg: 1501');
    const after = await opened();
    expect(after.result!.content.as_tested.mass_kg).toBe(1501);
    expect(after.others).toHaveLength(before.others.length);
    for (const [place, other] of after.others.entries()) expect(other).toBe(before.others[place]);
  }, 60_000);

  it('of another test is followed too', async () => {
    await opened();
    edit(`tests/${WET}/test.yaml`, /mass_kg: \d+/, 'mass_kg: 1502');
    const masses = (await opened()).others.map(({ id, content }) => [id, content.as_tested.mass_kg]);
    expect(masses).toContainEqual([WET, 1502]);
  }, 60_000);

  it('of a car reaches every test of it', async () => {
    await opened();
    edit('cars/quillet-sorrel.yaml', /kerb_mass_kg: \d+/, 'kerb_mass_kg: 1503');
    const { result, others } = await opened();
    const ofCar = [result!, ...others].filter(({ car }) => car.id === 'quillet-sorrel');
    expect(ofCar.length).toBeGreaterThan(1);
    for (const { car } of ofCar) expect(car.kerb_mass_kg).toBe(1503);
  }, 60_000);

  it('of the logo or of the ground it stands on is drawn anew, and of nothing else', async () => {
    const drawn = async () => (await desk.now()).house.logoPicture;
    const before = await drawn();
    expect(before).toBeDefined();
    edit(`tests/${DRY}/test.yaml`, /mass_kg: \d+/, 'mass_kg: 1504');
    expect(await drawn()).toBe(before);
    edit('logo.svg', /#[0-9a-f]{6}/i, '#ff00ff');
    expect((await drawn())!.pngBase64).not.toBe(before!.pngBase64);
  }, 60_000);

  it('of a log is measured anew', async () => {
    const before = await opened();
    const { file } = before.result!.content.logs[0]!;
    const path = join(root, 'content/tests', DRY, file);
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.slice(0, text.lastIndexOf('\n', text.length / 2) + 1));
    const after = await opened();
    const from = (open: typeof before) => open.result!.attempts.filter(({ log }) => log === file).length;
    expect(from(after)).toBeLessThan(from(before));
  }, 60_000);
});
