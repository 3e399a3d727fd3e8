/** The contents of the form: every step, reachable at any time, with what it lacks beside it. */

import { overlaysChosen } from './chosen-overlays.ts';
import { statesOf } from './missing.ts';
import { articleDraft, hashOf, place, STEPS, test, view } from './state.ts';
import { words } from './words.ts';

export function Contents() {
  const w = words();
  const now = view.value!;
  const states = statesOf(
    {
      view: now,
      test: test.value,
      article: articleDraft.value ?? now.article,
      overlaysChosen: overlaysChosen(now).length,
    },
    w,
  );
  return (
    <nav class="contents" aria-label={w.contents}>
      <p class="test-name">{test.value.title ?? now.id}</p>
      <ol>
        {STEPS.map((id, i) => (
          <li key={id}>
            <a href={hashOf(now.id, id)} aria-current={place.value.step === id ? 'step' : undefined}>
              <span class="number">{i + 1}</span>
              <span>
                <span class="name">{w.steps[id]}</span>
                <span class={states[id].done ? 'state' : 'state lacking'}>{states[id].says}</span>
              </span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
