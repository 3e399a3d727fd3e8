/** Step 5: figures chosen from their pictures. What is chosen stands in the article; there is no second list. */
import { useState } from 'preact/hooks';
import type { FigureSeen } from './answers.ts';
import { figuresPlaced } from './missing.ts';
import { Problems } from './Problems.tsx';
import { Picture } from './picture.tsx';
import { changeArticle } from './saving.ts';
import { download, Refused } from './server.ts';
import { articleDraft, said, view } from './state.ts';
import { words } from './words.ts';

export const articleNow = (): string => articleDraft.value ?? view.value!.article;

/** The article with the figure at its end. */
export const withFigure = (article: string, kind: string): string =>
  `${article.trimEnd()}${article.trim() === '' ? '' : '\n\n'}::figure{show=${kind}}\n`;

/** The article without the figure, and without the empty line it leaves. */
export const withoutFigure = (article: string, kind: string): string =>
  article.replace(
    new RegExp(`(^|\\n)::figure\\{[^}\\n]*\\bshow="?${kind}"?(?=[\\s}])[^}\\n]*\\}[^\\n]*\\n?\\n?`, 'g'),
    '$1',
  );

export function Figures() {
  const { figures: w } = words();
  const { figures } = view.value!;
  const placed = figuresPlaced(articleNow());
  return (
    <>
      <p class="lead">{w.lead}</p>
      <ul class="pictures">
        {figures.map(figure => (
          <OneFigure key={figure.kind} figure={figure} placed={placed.includes(figure.kind)} />
        ))}
      </ul>
    </>
  );
}

interface OneFigureProps {
  readonly figure: FigureSeen;
  readonly placed: boolean;
}

function OneFigure({ figure: { kind, title, describes, reason }, placed }: OneFigureProps) {
  const { figures: w } = words();
  const { id, drawnFrom } = view.value!;
  const name = title ?? describes;
  if (reason !== undefined) {
    return (
      <li class="not-made">
        <p>{describes}</p>
        <p class="hint">
          {w.notMade}
          {reason}
        </p>
      </li>
    );
  }
  return (
    <li class={placed ? 'chosen' : undefined}>
      <Picture
        path={`test/${encodeURIComponent(id)}/figure/${kind}?layout=narrow`}
        version={drawnFrom}
        alt={`${name}. ${describes}`}
      />
      <p class="hint">{describes}</p>
      <div class="buttons">
        <button
          type="button"
          aria-pressed={placed}
          aria-label={`${placed ? w.leave : w.choose}: ${name}`}
          onClick={() => {
            changeArticle(placed ? withoutFigure(articleNow(), kind) : withFigure(articleNow(), kind));
            said.value = `${name}: ${placed ? w.leave : w.chosen}`;
          }}
        >
          {placed ? w.leave : w.choose}
        </button>
        <SavePicture kind={kind} name={name} />
      </div>
    </li>
  );
}

function SavePicture({ kind, name }: { readonly kind: string; readonly name: string }) {
  const { figures: w } = words();
  const [layout, setLayout] = useState<keyof typeof w.layouts>('wide');
  const [refused, setRefused] = useState<Refused | undefined>(undefined);
  const save = async () => {
    try {
      const file = await download(`test/${encodeURIComponent(view.value!.id)}/export`, {
        what: 'figure',
        kind,
        layout,
        format: 'png',
      });
      setRefused(undefined);
      said.value = w.saved(file);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setRefused(error);
    }
  };
  return (
    <>
      <select
        aria-label={`${w.layout}: ${name}`}
        value={layout}
        onChange={event => setLayout(event.currentTarget.value as keyof typeof w.layouts)}
      >
        {Object.entries(w.layouts).map(([id, text]) => (
          <option key={id} value={id}>
            {text}
          </option>
        ))}
      </select>
      <button type="button" class="quiet" aria-label={`${w.save}: ${name}`} onClick={() => void save()}>
        {w.save}
      </button>
      {refused !== undefined && <Problems problems={refused.problems} />}
    </>
  );
}
