/** In the margin: what the day comes to so far, with its uncertainty, and which of two things may be said. */
import { view } from './state.ts';
import { words } from './words.ts';

export function Day() {
  const w = words().day;
  const { results, verdicts } = view.value!;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard
    <section class="day" aria-labelledby="day-title" tabIndex={0}>
      <h2 id="day-title">{w.title}</h2>
      {results.length === 0 && <p class="hint">{w.none}</p>}
      <dl aria-live="polite">
        {results.map(({ measure, startRule, label, text }) => (
          <div key={`${measure} ${startRule ?? ''} ${label}`}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {verdicts.length > 0 && (
        <>
          <h3>{w.verdicts}</h3>
          <ul>
            {verdicts.map(verdict => (
              <li key={verdict}>{verdict}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
