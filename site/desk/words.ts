/** Every word the desk says, in one place and in the publication's language. A missing one fails type checking. */

import { catalogue } from '../../pipeline/language.ts';
import { publication } from './state.ts';
import { german } from './words-de.ts';
import { english } from './words-en.ts';

/** The same keys in every language; texts that need facts are functions. */
export type Words = Widened<typeof english>;

type Widened<T> = {
  readonly [K in keyof T]: T[K] extends string
    ? string
    : T[K] extends (...given: infer A) => string
      ? (...given: A) => string
      : Widened<T[K]>;
};

const spoken = catalogue<Words>({ en: english, de: german });

/** The words of the publication's language; English until it is known, and where there are none. */
export const words = (): Words => spoken(publication.value?.house.language ?? 'en');
