/** Which lower thirds are chosen for the film: a choice of this desk, kept in this browser, not a fact of the test. */
import { signal } from '@preact/signals';
import type { TestView } from './answers.ts';

const KEY = 'desk-lower-thirds';

const kept = signal<Readonly<Record<string, readonly string[]>>>(
  JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, readonly string[]>,
);

/** Those chosen that can still be made, in the order a film uses them. */
export const overlaysChosen = ({ id, overlays }: TestView): readonly string[] =>
  overlays.map(({ name }) => name).filter(name => kept.value[id]?.includes(name));

/** Chooses exactly these. */
export function chooseOverlays({ id }: TestView, names: readonly string[]): void {
  kept.value = { ...kept.value, [id]: names };
  localStorage.setItem(KEY, JSON.stringify(kept.value));
}
