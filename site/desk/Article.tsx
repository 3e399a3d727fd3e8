/** Step 7: the article, with numbers, figures and tables put in from a list, and seen as readers will see it. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Insert, Inserts } from './answers.ts';
import { articleNow } from './Figures.tsx';
import { Lined } from './fields.tsx';
import { Preview } from './Preview.tsx';
import { changeArticle } from './saving.ts';
import { NotThere, Refused, read } from './server.ts';
import { said, view } from './state.ts';
import { words } from './words.ts';

export function Article() {
  const { article: w } = words();
  const area = useRef<HTMLTextAreaElement>(null);
  const text = articleNow();
  const putIn = ({ directive, label }: Insert) => {
    const element = area.current!;
    const { selectionStart: from, selectionEnd: to, value } = element;
    const block = directive.startsWith('::');
    const before = value.slice(0, from);
    // A figure or table stands in a paragraph of its own.
    const lead =
      !block || before === '' || before.endsWith('\n\n') ? '' : before.endsWith('\n') ? '\n' : '\n\n';
    const put = `${lead}${directive}${block ? '\n\n' : ''}`;
    const next = before + put + value.slice(to);
    changeArticle(next);
    said.value = w.inserted(label);
    setTimeout(() => {
      element.focus();
      element.setSelectionRange(from + put.length, from + put.length);
    });
  };
  return (
    <>
      <p class="lead">{w.lead}</p>
      <div class="writing">
        <Lined label={w.text} wide>
          {given => (
            <textarea
              {...given}
              ref={area}
              class="manuscript"
              rows={18}
              value={text}
              onInput={event => changeArticle(event.currentTarget.value)}
            />
          )}
        </Lined>
        <InsertList onPick={putIn} />
      </div>
      <Preview />
    </>
  );
}

const GROUPS = ['numbers', 'conditions', 'figures', 'tables'] as const;

function InsertList({ onPick }: { readonly onPick: (insert: Insert) => void }) {
  const { article: w } = words();
  const [inserts, setInserts] = useState<Inserts | undefined>(undefined);
  const [sought, setSought] = useState('');
  const { id, version } = view.value!;
  // A new version has other numbers.
  useEffect(() => {
    const gone = new AbortController();
    read<Inserts>(`test/${encodeURIComponent(id)}/inserts`, gone.signal)
      .then(setInserts)
      .catch(error => {
        if (!(error instanceof Refused || error instanceof NotThere || error.name === 'AbortError'))
          throw error;
      });
    return () => gone.abort();
  }, [id, version]);
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
