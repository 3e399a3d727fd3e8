import { describe, expect, it } from 'vitest';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import { GUIDE_KIND } from '../../pipeline/press/manifest.ts';
import { countOverlayPictures, writeOverlays } from '../../pipeline/press/press-overlays.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { OTHER, TEST, THEMED_HOUSE } from '../overlay/fixture.ts';

const PUBLICATION: Publication = {
  house: { ...THEMED_HOUSE, video: { sizes: ['960x540', '540x540'] } },
  cars: [],
  roads: [],
  tests: [TEST, OTHER],
  methodologyMarkdown: '',
  problems: [],
};

async function written(test: TestResult) {
  const files = new Map<string, string | Uint8Array>();
  let done = 0;
  const result = await writeOverlays(
    'press/day',
    test,
    PUBLICATION,
    await loadLettering(),
    async (path, content) => void files.set(path, content),
    () => done++,
  );
  return { ...result, written: files, done };
}

describe('the lower thirds of a press folder', () => {
  it('are one folder for each size the house names, guide first, with a note beside them', async () => {
    const { overlays, files, problems, written: all, done } = await written(TEST);
    expect(overlays[0]).toMatchObject({ kind: GUIDE_KIND, name: '0-guide' });
    expect(overlays.map(({ name }) => name)).toEqual(overlays.map(({ name }) => name).sort());
    const paths = overlays.flatMap(({ sizes }) => sizes.map(({ path }) => path));
    expect([...all.keys()].sort()).toEqual([...paths, 'press/day/overlays/README.txt'].sort());
    expect(paths).toContain('press/day/overlays/540x540/1-caution.png');
    expect(files.map(({ path }) => path)).toEqual(['press/day/overlays/README.txt']);
    expect(files[0]!.bytes).toBe(Buffer.byteLength(all.get('press/day/overlays/README.txt') as string));
    expect(done).toBe(countOverlayPictures(TEST, PUBLICATION));
    expect(done).toBe(paths.length);
    expect(problems).toEqual([]);
  });

  it('are the same bytes each time', async () => {
    const [one, other] = [(await written(TEST)).written, (await written(TEST)).written];
    expect([...one.keys()].sort()).toEqual([...other.keys()].sort());
    for (const [path, content] of one)
      expect(
        Buffer.from(content as Uint8Array).equals(Buffer.from(other.get(path) as Uint8Array)),
        path,
      ).toBe(true);
  });

  it('are not made where the test wants none', async () => {
    const without = { ...TEST, content: { ...TEST.content, lower_thirds: false } };
    expect(await written(without)).toMatchObject({ overlays: [], files: [], done: 0 });
    expect(countOverlayPictures(without, PUBLICATION)).toBe(0);
  });
});
