/** The lower thirds of one test as files: every plate and the editor's guide at each frame size, and a note beside them. */
import { testsBeside } from '../article/pair.ts';
import { codeDigest } from '../cache/code-digest.ts';
import { bytesOnce, valueOnce } from '../cache/kept.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import { catalogue } from '../language.ts';
import type { Lettering } from '../lettering/lettering.ts';
import { guideOverlay } from '../overlay/guide.ts';
import { NOTE_NAME, overlaysNote } from '../overlay/note.ts';
import type { FrameSize, MadeOverlay } from '../overlay/overlay.ts';
import { OVERLAYS } from '../overlay/overlays.ts';
import { renderOverlay } from '../overlay/render.ts';
import { houseFrameSizes } from '../overlay/sizes.ts';
import { houseTheme } from '../overlay/theme.ts';
import type { Problem } from '../problem.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { fewAtOnce } from './few-at-once.ts';
import { GUIDE_KIND, type PressFile, type PressOverlay, type PressTest } from './manifest.ts';
import type { Recorder } from './recorder.ts';
import type { WriteFile } from './write-file.ts';

/** The plates of a test; none where its content says that it wants none. */
function platesOf(test: TestResult, { house, tests }: Publication): readonly MadeOverlay[] {
  if (test.content.lower_thirds === false) return [];
  return Object.values(OVERLAYS).flatMap(overlay => overlay.make(test, house, testsBeside(test, tests)));
}

const noteDescribes = catalogue({
  en: 'What the lower thirds are, and which plate is for when',
  de: 'Was die Bauchbinden sind und welche wofür gedacht ist',
});

/** The note beside the lower thirds as a page in another language lists it. */
export const overlayFiles = ({ files = [] }: PressTest, house: House): readonly PressFile[] =>
  files
    .filter(({ path }) => path.endsWith(`/overlays/${NOTE_NAME}`))
    .map(file => ({ ...file, describes: noteDescribes(house) }));

/** How many pictures `writeOverlays` will make, for progress: the guide is one of each size. */
export function countOverlayPictures(test: TestResult, publication: Publication): number {
  const plates = platesOf(test, publication).length;
  return plates === 0 ? 0 : (plates + 1) * houseFrameSizes(publication.house).length;
}

export interface WrittenOverlays {
  /** The guide first, then the plates in the order of their names. */
  readonly overlays: readonly PressOverlay[];
  readonly files: readonly PressFile[];
  /** What did not fit, plate by plate. */
  readonly problems: readonly Problem[];
}

/** The module whose pictures are kept, for their keys. */
const CODE = 'pipeline/press/press-overlays.ts';

/** Writes `overlays/<size>/<name>.png` and the note under the test's folder; plates are taken from `store` where it has them. */
export async function writeOverlays(
  folder: string,
  test: TestResult,
  publication: Publication,
  lettering: Lettering,
  write: WriteFile,
  pictureDone: () => void,
  store: Store = NO_STORE,
): Promise<WrittenOverlays> {
  const { house } = publication;
  const plates = platesOf(test, publication);
  if (plates.length === 0) return { overlays: [], files: [], problems: [] };
  const frameSizes = houseFrameSizes(house);
  const guide = { ...guideOverlay(houseTheme(house).safeAreas, house), kind: GUIDE_KIND };
  const overlays = await fewAtOnce([guide, ...plates], async ({ kind, name, altText, madeFrom, svg }) => {
    const sizes: { name: string; path: string }[] = [];
    for (const size of frameSizes) {
      const path = `${folder}/overlays/${size.name}/${name}.png`;
      const from = ['overlay', codeDigest(CODE), madeFrom, size];
      await write(path, await bytesOnce(store, from, () => renderOverlay({ svg }, size, lettering)));
      pictureDone();
      sizes.push({ name: size.name, path });
    }
    return { kind, name, altText, sizes };
  });
  const note = overlaysNote(test, house, plates, frameSizes);
  const path = `${folder}/overlays/${NOTE_NAME}`;
  await write(path, note);
  return {
    overlays,
    files: [
      {
        path,
        describes: noteDescribes(house),
        bytes: Buffer.byteLength(note),
      },
    ],
    problems: await problemsOf(plates, frameSizes, lettering, store),
  };
}

/** What does not fit, plate by plate; asked for a plate anew only where it may have changed. */
async function problemsOf(
  plates: readonly MadeOverlay[],
  frameSizes: readonly FrameSize[],
  lettering: Lettering,
  store: Store,
): Promise<readonly Problem[]> {
  const found: Problem[] = [];
  for (const plate of plates) {
    const from = ['overlay problems', codeDigest(CODE), plate.name, plate.madeFrom, frameSizes];
    const problems = async () => frameSizes.flatMap(size => plate.problems(size, lettering));
    found.push(...(await valueOnce<readonly Problem[]>(store, from, problems)));
  }
  return found;
}

/** Says of each written plate, guide and note what it is. */
export function describeOverlays(
  { overlays, files }: Pick<WrittenOverlays, 'overlays' | 'files'>,
  test: TestResult,
  { describe }: Pick<Recorder, 'describe'>,
): void {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined).length;
  for (const { kind, name, altText, sizes } of overlays) {
    const guide = kind === GUIDE_KIND;
    for (const { name: size, path } of sizes) {
      const [width, height] = size.split('x').map(Number);
      describe(path, {
        kind: guide ? 'guide' : 'lower-third',
        shows: `${name}, ${size.replace('x', ' × ')}`,
        alt_text: altText,
        ...(width === undefined || height === undefined ? {} : { width_px: width, height_px: height }),
        ...(guide ? {} : { attempts: test.attempts.length, attempts_kept: kept }),
      });
    }
  }
  for (const { path, describes } of files) describe(path, { kind: 'note', shows: describes });
}
