/** Step 6: lower thirds seen over a bright and a dark picture, chosen, and exported at the film's size. */
import { useState } from 'preact/hooks';
import { chooseOverlays, overlaysChosen } from './chosen-overlays.ts';
import { Problems } from './Problems.tsx';
import { Picture } from './picture.tsx';
import { sendAll } from './saving.ts';
import { download, Refused } from './server.ts';
import { said, view } from './state.ts';
import { words } from './words.ts';

type Ground = 'bright' | 'dark';

export function Video() {
  const { video: w } = words();
  const now = view.value!;
  const { id, drawnFrom, overlays, sizes } = now;
  const [size, setSize] = useState(sizes[0] ?? '1920x1080');
  const [ground, setGround] = useState<Ground>('bright');
  const [done, setDone] = useState<string | undefined>(undefined);
  const [refused, setRefused] = useState<Refused | undefined>(undefined);
  const chosen = overlaysChosen(now);
  const [width, height] = size.split('x').map(Number);

  const exportThem = async () => {
    try {
      await sendAll();
      const path = `test/${encodeURIComponent(id)}/export`;
      const file = await download(path, { what: 'overlays', names: chosen, sizes: [size] });
      setRefused(undefined);
      setDone(w.exported(file));
      said.value = w.exported(file);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setDone(undefined);
      setRefused(error);
    }
  };

  return (
    <>
      <p class="lead">{w.lead}</p>
      {overlays.length === 0 && <p>{w.none}</p>}
      {overlays.length > 0 && (
        <>
          <div class="buttons">
            <label class="inline">
              {w.size}{' '}
              <select value={size} onChange={event => setSize(event.currentTarget.value)}>
                {sizes.map(name => (
                  <option key={name} value={name}>
                    {name.replace('x', ' × ')}
                  </option>
                ))}
              </select>
            </label>
            <fieldset class="inline">
              <legend class="unseen">{w.over}</legend>
              {(['bright', 'dark'] as const).map(kind => (
                <label class="tick" key={kind}>
                  <input
                    type="radio"
                    name="ground"
                    checked={ground === kind}
                    onChange={() => setGround(kind)}
                  />
                  {w[kind]}
                </label>
              ))}
            </fieldset>
          </div>
          <div class="buttons">
            <button
              type="button"
              onClick={() =>
                chooseOverlays(
                  now,
                  overlays.map(({ name }) => name),
                )
              }
            >
              {w.all}
            </button>
            <button type="button" disabled={chosen.length === 0} onClick={() => chooseOverlays(now, [])}>
              {w.nothing}
            </button>
            <button
              type="button"
              class="main"
              disabled={chosen.length === 0}
              onClick={() => void exportThem()}
            >
              {w.export}
            </button>
            <span>{w.chosen(chosen.length)}</span>
          </div>
          <p role="status">{done}</p>
          {refused !== undefined && <Problems problems={refused.problems} />}
          <ul class="pictures stills">
            {overlays.map(({ name, describes, altText }) => {
              const isChosen = chosen.includes(name);
              return (
                <li key={name} class={isChosen ? 'chosen' : undefined}>
                  <div class={`still ${ground}`} style={{ aspectRatio: `${width} / ${height}` }}>
                    <Picture
                      path={`test/${encodeURIComponent(id)}/overlay/${encodeURIComponent(name)}?size=${size}`}
                      version={drawnFrom}
                      alt={altText}
                    />
                  </div>
                  <label class="tick">
                    <input
                      type="checkbox"
                      checked={isChosen}
                      onChange={() =>
                        chooseOverlays(
                          now,
                          isChosen ? chosen.filter(other => other !== name) : [...chosen, name],
                        )
                      }
                    />
                    <span>
                      {w.choose}: {describes}
                      <span class="hint shows">{altText}</span>
                    </span>
                  </label>
                </li>
              );
            })}
          </ul>
        </>
      )}
    </>
  );
}
