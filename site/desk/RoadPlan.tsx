/** The road plan of this car on this road, with assumptions of one's own and the cautions in sight. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import type { PlanSeen, PublicationView } from './answers.ts';
import { Lined } from './fields.tsx';
import { Problems } from './Problems.tsx';
import { Refused, read } from './server.ts';
import { speedUnitShown, view } from './state.ts';
import { words } from './words.ts';

interface RoadPlanProps {
  readonly road: PublicationView['roads'][number]['road'] | undefined;
}

/** Narrower than this, the figure is laid out for a phone. */
const WIDE_PX = 560;

const NUMBERS = [
  ['load', 'load', 'kg'],
  ['tow', 'tow', 'kg'],
  ['headwind', 'headwind', 'm/s'],
  ['from', 'from', 'speed'],
  ['reaction', 'reaction', 's'],
  ['deceleration', 'deceleration', 'm/s²'],
  ['reserve', 'reserve', 'm'],
] as const;

export function RoadPlan({ road }: RoadPlanProps) {
  const { road: w } = words();
  const [asked, setAsked] = useState<Readonly<Record<string, string>>>({});
  const box = useRef<HTMLElement>(null);
  const [layout, setLayout] = useState<'narrow' | 'wide'>('wide');
  const [plan, setPlan] = useState<PlanSeen | undefined>(undefined);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const speedUnit = speedUnitShown();
  const now = view.value!;
  const path = `test/${encodeURIComponent(now.id)}`;
  const query = new URLSearchParams(
    Object.entries(asked).filter(([, value]) => value.trim() !== ''),
  ).toString();
  // Whatever the server says anew of the test may change the plan: runs that replace estimates, the car, the road.
  useEffect(() => {
    const gone = new AbortController();
    const timer = setTimeout(async () => {
      try {
        setPlan(await read<PlanSeen>(`${path}/plan?layout=${layout}&${query}`, gone.signal));
        setProblems([]);
      } catch (error) {
        if (error instanceof Refused) setProblems(error.problems);
      }
    }, 300);
    return () => {
      clearTimeout(timer);
      gone.abort();
    };
  }, [now, query, layout]);
  // A tablet turned round, or a window made narrower, wants the other layout.
  useEffect(() => {
    const watching = new ResizeObserver(([seen]) =>
      setLayout(seen!.contentRect.width < WIDE_PX ? 'narrow' : 'wide'),
    );
    watching.observe(box.current!);
    return () => watching.disconnect();
  }, []);
  const set = (name: string, value: string) => setAsked({ ...asked, [name]: value });
  return (
    <section ref={box} class="plan" aria-labelledby="plan-title">
      <h2 id="plan-title" tabIndex={-1}>
        {w.plan}
      </h2>
      <p>{w.planLead}</p>
      <p class="caution">
        <strong>{words().cautionTitle}</strong> {plan?.caution ?? w.planCaution}
      </p>
      <details>
        <summary>{w.options}</summary>
        <div class="fields">
          {(road?.directions?.length ?? 0) > 1 && (
            <Lined label={w.direction}>
              {given => (
                <select {...given} onChange={event => set('direction', event.currentTarget.value)}>
                  {road!.directions!.map(({ id: way, name }) => (
                    <option key={way} value={way}>
                      {name}
                    </option>
                  ))}
                </select>
              )}
            </Lined>
          )}
          <label class="tick">
            <input type="checkbox" onChange={event => set('wet', event.currentTarget.checked ? '1' : '')} />
            {w.wet}
          </label>
          {NUMBERS.map(([name, label, unit]) => (
            <Lined
              key={name}
              label={w[label]}
              unit={unit === 'speed' ? speedUnit : unit}
              hint={name === 'headwind' ? w.headwindHint : undefined}
            >
              {given => (
                <input
                  {...given}
                  class="figure-input"
                  inputMode="decimal"
                  onInput={event => set(name, event.currentTarget.value.replace(',', '.'))}
                />
              )}
            </Lined>
          ))}
        </div>
      </details>
      {problems.length > 0 && <Problems problems={problems} />}
      {plan !== undefined && problems.length === 0 && (
        <>
          <p class="finding">{plan.sentence}</p>
          <p>{plan.starts + plan.stops > 0 ? w.measured(plan.starts, plan.stops) : w.estimated}</p>
          {plan.figureSvg !== undefined && <Drawn svg={plan.figureSvg} alt={plan.figureAlt ?? ''} />}
          <Html html={plan.tableHtml} />
          <details>
            <summary>{w.assumptions}</summary>
            <ul>
              {plan.assumptions.map(text => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </details>
        </>
      )}
    </section>
  );
}

/** Made by this program's own tables, which escape what people wrote. */
function Html({ html }: { readonly html: string }) {
  // Escaped by pipeline/table/html.ts.
  return <div class="made-table" dangerouslySetInnerHTML={{ __html: html }} />;
}

/** As a picture, so that nothing in it can act on the page. */
function Drawn({ svg, alt }: { readonly svg: string; readonly alt: string }) {
  return <img class="plan-figure" src={`data:image/svg+xml,${encodeURIComponent(svg)}`} alt={alt} />;
}
