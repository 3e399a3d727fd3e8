/** The line at the foot: what is saved, and the way back. */
import { describing } from './describing.ts';
import { Problems } from './Problems.tsx';
import { step } from './saving.ts';
import { type Saving, saving, view } from './state.ts';
import { words } from './words.ts';

const clock = (at: Date): string => at.toTimeString().slice(0, 8);

/** The later of the two times at which something was saved. */
function latest(): Saving {
  const [test, described] = [saving.value, describing.value];
  const at = (of: Saving): number => (of.is === 'saved' ? (of.at?.getTime() ?? 0) : 0);
  return at(described) > at(test) ? described : test;
}

export function Status() {
  const w = words().saving;
  // What is not saved yet comes before what is.
  const now = [saving.value, describing.value].find(({ is }) => is !== 'saved') ?? latest();
  const { undo = 0, redo = 0, results } = view.value!;
  // The figure people ask for first, where the day has it.
  const first =
    results.find(({ measure }) => measure === '0-100-kmh' || measure === '0-60-mph') ?? results[0];
  return (
    <aside class="status" aria-label={w.history}>
      <div class="saved" role="status">
        {now.is === 'saved' && <p>{now.at === undefined ? w.saved : w.savedAt(clock(now.at))}</p>}
        {now.is === 'saving' && <p>{w.saving}</p>}
        {now.is === 'waiting' && <p class="wrong">{w.waiting}</p>}
        {now.is === 'refused' && (
          <>
            <p class="wrong">{w.refused}</p>
            <Problems problems={now.problems} />
          </>
        )}
      </div>
      {first !== undefined && (
        <p class="headline" aria-hidden="true">
          {first.label}: <strong>{first.text}</strong>
        </p>
      )}
      <div class="buttons">
        <button type="button" disabled={undo === 0} onClick={() => void step('undo').catch(() => {})}>
          {w.undo}
        </button>
        <button type="button" disabled={redo === 0} onClick={() => void step('redo').catch(() => {})}>
          {w.redo}
        </button>
      </div>
    </aside>
  );
}
