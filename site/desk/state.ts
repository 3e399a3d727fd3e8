/** What the page knows: where it is, what the server said last, and what is not sent yet. */

import { computed, effect, signal } from '@preact/signals';
import type { Problem } from '../../pipeline/problem.ts';
import type { SpeedUnit } from '../../pipeline/speed-unit.ts';
import type { Change, Conflict, DraftTest, PublicationView, TestView } from './answers.ts';
import { withChanges } from './changes.ts';

/** In the order of the work. */
export const STEPS = [
  'road',
  'logs',
  'runs',
  'conditions',
  'figures',
  'video',
  'article',
  'going-out',
] as const;
export type StepId = (typeof STEPS)[number];

export interface Place {
  readonly test?: string;
  readonly step: StepId;
  /** The form for a new test. */
  readonly isNew: boolean;
}

/** `#/test/ID/STEP`, `#/new`, or nothing: the list of tests. */
export function placeOf(hash: string): Place {
  const [, kind, test, step] = hash.split('/');
  const known = STEPS.find(id => id === step) ?? 'road';
  if (kind === 'test' && test) return { test: decodeURIComponent(test), step: known, isNew: false };
  return { step: 'road', isNew: kind === 'new' };
}

export const hashOf = (test: string, step: StepId): string => `#/test/${encodeURIComponent(test)}/${step}`;

export const place = signal<Place>(placeOf(location.hash));
addEventListener('hashchange', () => {
  place.value = placeOf(location.hash);
});

export const publication = signal<PublicationView | undefined>(undefined);

/** That speeds are shown in; files hold km/h whatever it is. */
export const speedUnitShown = (): SpeedUnit => (publication.value?.house.units === 'mph' ? 'mph' : 'km/h');
/** As the server said last. */
export const view = signal<TestView | undefined>(undefined);
/** Being sent, then waiting, in their order. */
export const underWay = signal<readonly Change[]>([]);
export const waiting = signal<readonly Change[]>([]);

/** The test as it stands on the page: the server's word with what is not sent yet. */
export const test = computed<DraftTest>(() =>
  withChanges(view.value?.test ?? {}, [...underWay.value, ...waiting.value]),
);

/** The article as it stands on the page; undefined where it is the server's. */
export const articleDraft = signal<string | undefined>(undefined);

export type Saving =
  | { readonly is: 'saved'; readonly at?: Date }
  | { readonly is: 'saving' }
  /** The server does not answer; what was typed is kept here. */
  | { readonly is: 'waiting' }
  | { readonly is: 'refused'; readonly problems: readonly Problem[] };

export const saving = signal<Saving>({ is: 'saved' });

/** A file changed elsewhere meanwhile: nothing is written until the person has chosen. */
export const conflict = signal<(Conflict & { readonly of: 'test' | 'article' }) | undefined>(undefined);

/** Said to everyone, screen readers included: what was just done. */
export const said = signal('');

/** Names of dropped logs still to be read; the first is being read. */
export const reading = signal<readonly string[]>([]);

/** The run looked at, here and in the strip. */
export const chosenRun = signal<{ readonly log: string; readonly number: number } | undefined>(undefined);

effect(() => {
  const name = view.value === undefined ? 'Desk' : (test.value.title ?? view.value.id);
  document.title = place.value.test === undefined ? 'Desk' : `${name} – desk`;
});
