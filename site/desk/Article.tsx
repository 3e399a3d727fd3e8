/** Step 7: the article, with numbers, figures and tables put in from a list, and seen as readers will see it. */
import { useEffect, useId, useMemo, useRef, useState } from 'preact/hooks';
import type { Insert, Inserts } from './answers.ts';
import { articleNow } from './Figures.tsx';
import { Lined } from './fields.tsx';
import { Manuscript, type Writing } from './Manuscript.tsx';
import { Preview } from './Preview.tsx';
import { changeArticle } from './saving.ts';
import { NotThere, Refused, read } from './server.ts';
import { said, view } from './state.ts';
import { words } from './words.ts';

export function Article() {
  const { article: w } = words();
  const id = useId();
  const writing = useRef<Writing>(null);
  const [plain, setPlain] = useState(false);
  const inserts = useInserts();
  // Read here, so that a change from elsewhere draws this anew.
  articleNow();
  const shows = useMemo(() => {
    const all = GROUPS.flatMap(group => inserts?.[group] ?? []);
    const known = new Map(all.map(({ directive, label, shows }) => [directive, shows || label]));
    return (directive: string) => known.get(directive);
  }, [inserts]);
  return (
    <>
      <p class="lead">{w.lead}</p>
      <div class="writing">
        <div class="field wide">
          <p class="field-name" id={`${id}-name`}>
            {w.text}
          </p>
          <div class="line">
            {plain ? (
              <textarea
                class="manuscript"
                aria-labelledby={`${id}-name`}
                rows={18}
                value={articleNow()}
                onInput={event => changeArticle(event.currentTarget.value)}
              />
            ) : (
              <Manuscript
                id={id}
                labelledBy={`${id}-name`}
                textNow={articleNow}
                shows={shows}
                onText={changeArticle}
                writing={writing}
              />
            )}
          </div>
          <label class="tick">
            <input
              type="checkbox"
              checked={plain}
              onChange={event => setPlain(event.currentTarget.checked)}
            />
            {w.plain}
          </label>
        </div>
        {!plain && (
          <InsertList
            inserts={inserts}
            onPick={({ directive, label }) => {
              writing.current!.putIn(directive);
              said.value = w.inserted(label);
            }}
          />
        )}
      </div>
      <Preview />
    </>
  );
}

/** What can be put in now; asked for anew with every version, whose numbers may differ. */
function useInserts(): Inserts | undefined {
  const [inserts, setInserts] = useState<Inserts | undefined>(undefined);
  const { id, drawnFrom } = view.value!;
  useEffect(() => {
    const gone = new AbortController();
    read<Inserts>(`test/${encodeURIComponent(id)}/inserts`, gone.signal)
      .then(setInserts)
      .catch(error => {
        if (!(error instanceof Refused || error instanceof NotThere || error.name === 'AbortError'))
          throw error;
      });
    return () => gone.abort();
  }, [id, drawnFrom]);
  return inserts;
}

interface InsertListProps {
  readonly inserts: Inserts | undefined;
  readonly onPick: (insert: Insert) => void;
}

const GROUPS = ['numbers', 'conditions', 'figures', 'tables'] as const;

function InsertList({ inserts, onPick }: InsertListProps) {
  const { article: w } = words();
  const [sought, setSought] = useState('');
  const fits = ({ label, shows }: Insert): boolean =>
    `${label} ${shows}`.toLowerCase().includes(sought.trim().toLowerCase());
  const groups = GROUPS.map(group => ({ group, found: inserts?.[group]?.filter(fits) ?? [] }));
  return (
    <section class="inserts" aria-label={w.insert}>
      <Lined label={w.find}>
        {given => (
          <input
            {...given}
            type="search"
            value={sought}
            onInput={event => setSought(event.currentTarget.value)}
          />
        )}
      </Lined>
      <div class="insert-list">
        {groups
          .filter(({ found }) => found.length > 0)
          .map(({ group, found }) => (
            <section key={group} aria-label={w[group]}>
              <h2>{w[group]}</h2>
              <ul>
                {found.map(insert => (
                  <li key={insert.directive}>
                    <button type="button" class="insert" onClick={() => onPick(insert)}>
                      <span class="unseen">{w.put('')}</span>
                      <span>{insert.label}</span> <span class="shows">{insert.shows}</span>
                    </button>
                  </li>
                ))}
              </ul>
            </section>
          ))}
        {inserts !== undefined && groups.every(({ found }) => found.length === 0) && <p>{w.nothing}</p>}
      </div>
    </section>
  );
}
