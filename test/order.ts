/**
 * The order in which test files begin: those that take long first, so that no worker is left alone with one at the
 * end. The first builds the site in a process of its own; what needs the site comes when it is about built.
 */
import { relative, sep } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const FIRST = [
  'browser/pages.test.ts',
  'measurement/coverage.test.ts',
  'press/press-publication.test.ts',
  'measurement/shifts-days.test.ts',
  'browser/desk.test.ts',
  'browser/archive.test.ts',
  'browser/recompute.test.ts',
  'browser/hostile.test.ts',
  'browser/reading.test.ts',
  'browser/languages.test.ts',
  'browser/press-figures.test.ts',
  'browser/desk-absent.test.ts',
  'overlay/overlays.test.ts',
  'gallery/gallery.test.ts',
  'conditions/restate.test.ts',
  'sequence/frames-command.test.ts',
  'figure/figures.test.ts',
  'fuzz/fuzz.test.ts',
  'sequence/painter.test.ts',
  'sign-off/sign-off.test.ts',
  'press/press-figures.test.ts',
  'desk/server.test.ts',
  'conditions/coast-down.test.ts',
  'recompute/recompute.test.ts',
];

export default class LongestFirst extends BaseSequencer {
  /** @returns those of `FIRST` in its order, then the rest as Vitest would begin them */
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification): number => {
      const place = FIRST.indexOf(
        relative(import.meta.dirname, moduleId)
          .split(sep)
          .join('/'),
      );
      return place < 0 ? FIRST.length : place;
    };
    return (await super.sort(files)).sort((one, other) => placeOf(one) - placeOf(other));
  }
}
