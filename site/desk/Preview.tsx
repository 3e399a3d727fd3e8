/** The page as readers will see it: on a phone, on a wide screen, on paper; and its lower thirds over stills. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import { Problems } from './Problems.tsx';
import { Picture } from './picture.tsx';
import { NotThere, Refused, readWhole } from './server.ts';
import { view } from './state.ts';
import { words } from './words.ts';

const SHAPES = ['phone', 'wide', 'print', 'video'] as const;
type Shape = (typeof SHAPES)[number];

/** CSS px: a small phone, a laptop, an A4 sheet at 96 px an inch less nothing. */
const WIDTH: Readonly<Record<Exclude<Shape, 'video'>, number>> = { phone: 360, wide: 1200, print: 794 };

export function Preview() {
  const { article: w } = words();
  const [shape, setShape] = useState<Shape>('phone');
  return (
    <section class="preview" aria-labelledby="preview-title">
      <h2 id="preview-title">{w.preview}</h2>
      <fieldset class="inline">
        <legend class="unseen">{w.preview}</legend>
        {SHAPES.map(kind => (
          <label class="tick" key={kind}>
            <input type="radio" name="shape" checked={shape === kind} onChange={() => setShape(kind)} />
            {w.previews[kind]}
          </label>
        ))}
      </fieldset>
      {shape === 'video' ? <Stills /> : <Paper shape={shape} />}
    </section>
  );
}

function Paper({ shape }: { readonly shape: Exclude<Shape, 'video'> }) {
  const { article: w } = words();
  const { id, drawnFrom, articleVersion } = view.value!;
  const [html, setHtml] = useState<string | undefined>(undefined);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const box = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState(0);
  // A new version is set anew.
  useEffect(() => {
    const gone = new AbortController();
    readWhole(`test/${encodeURIComponent(id)}/article.html`, gone.signal)
      .then(blob => blob.text())
      .then(text => {
        setHtml(text);
        setProblems([]);
      })
      .catch(error => {
        if (error instanceof Refused) setProblems(error.problems);
        else if (!(error instanceof NotThere || error.name === 'AbortError')) throw error;
      });
    return () => gone.abort();
  }, [id, drawnFrom, articleVersion]);
  useEffect(() => {
    const watching = new ResizeObserver(([seen]) => setRoom(seen!.contentRect.width));
    watching.observe(box.current!);
    return () => watching.disconnect();
  }, []);
  const width = WIDTH[shape];
  const scale = Math.min(1, room / width);
  const height = 640;
  return (
    <div ref={box} class="paper">
      {problems.length > 0 && (
        <>
          <p>{w.notReady}</p>
          <Problems problems={problems} />
        </>
      )}
      {html === undefined && problems.length === 0 && <p class="hint">{words().figures.drawing}</p>}
      {html !== undefined && problems.length === 0 && room > 0 && (
        <div style={{ height: `${height}px`, width: `${width * scale}px` }} class="frame">
          <iframe
            title={`${w.preview}, ${w.previews[shape]}`}
            sandbox="allow-same-origin"
            srcDoc={html}
            style={{
              width: `${width}px`,
              height: `${height / scale}px`,
              transform: `scale(${scale})`,
            }}
            onLoad={event => {
              dress(event.currentTarget, shape);
              if (shape === 'print') asPrinted(event.currentTarget);
            }}
            key={shape}
          />
        </div>
      )}
    </div>
  );
}

/** Colours and faces are the desk's own, which are the site's: a page by itself has neither. */
function dress(frame: HTMLIFrameElement, shape: Exclude<Shape, 'video'>): void {
  const inside = frame.contentDocument;
  if (inside === null) return;
  // Margins of a sheet, and room where readers have the head of the page.
  inside.body.style.padding = shape === 'print' ? '16mm 18mm' : '1.25rem 0';
  for (const name of document.documentElement.style) {
    inside.documentElement.style.setProperty(name, document.documentElement.style.getPropertyValue(name));
  }
  for (const sheet of document.styleSheets) {
    const faces = [...sheet.cssRules].filter(rule => rule instanceof CSSFontFaceRule);
    if (faces.length === 0) continue;
    const style = inside.createElement('style');
    style.textContent = faces.map(({ cssText }) => cssText).join('\n');
    inside.head.append(style);
  }
}

/** Rules for paper hold, those for the screen alone do not: what the printer would get. */
function asPrinted(frame: HTMLIFrameElement): void {
  for (const sheet of frame.contentDocument?.styleSheets ?? []) {
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof (frame.contentWindow as Window & typeof globalThis).CSSMediaRule)) continue;
      if (rule.media.mediaText === 'print') rule.media.mediaText = 'all';
      else if (rule.media.mediaText === 'screen') rule.media.mediaText = 'print';
    }
  }
}

function Stills() {
  const { video: w } = words();
  const { id, drawnFrom, overlays, sizes } = view.value!;
  const size = sizes[0] ?? '1920x1080';
  if (overlays.length === 0) return <p>{w.none}</p>;
  return (
    <ul class="pictures stills">
      {overlays.flatMap(({ name, altText }) =>
        (['bright', 'dark'] as const).map(ground => (
          <li key={`${name} ${ground}`}>
            <div class={`still ${ground}`} style={{ aspectRatio: size.replace('x', ' / ') }}>
              <Picture
                path={`test/${encodeURIComponent(id)}/overlay/${encodeURIComponent(name)}?size=${size}`}
                version={drawnFrom}
                alt={`${altText} (${w[ground]})`}
              />
            </div>
          </li>
        )),
      )}
    </ul>
  );
}
