/** What each step still lacks, in words, for the contents of the form. Reads what is there; computes no figure. */
import type { DraftTest, TestView } from './answers.ts';
import type { StepId } from './state.ts';
import type { Words } from './words.ts';

export interface StepState {
  readonly says: string;
  /** Nothing more is needed here for the test to go out. */
  readonly done: boolean;
}

/** Directives of figures that stand in an article, by kind. */
export const figuresPlaced = (article: string): readonly string[] =>
  [...article.matchAll(/^::figure\{[^}\n]*\bshow="?([a-z0-9-]+)/gm)].map(match => match[1]!);

interface Now {
  readonly view: TestView;
  readonly test: DraftTest;
  readonly article: string;
  readonly overlaysChosen: number;
}

/** Every step with what it lacks. */
export function statesOf(now: Now, { missing: w }: Words): Readonly<Record<StepId, StepState>> {
  const { view, test, article } = now;
  return {
    road: roadState(test, w),
    logs: logsState(view, w),
    runs: runsState(view, w),
    conditions: conditionsState(view, test, w),
    figures: told(w.figuresIn(figuresPlaced(article).length)),
    video: told(now.overlaysChosen === 0 ? w.noVideo : w.video(now.overlaysChosen)),
    article: articleState(article, w),
    'going-out': outState(view, w),
  };
}

type MissingWords = Words['missing'];

const told = (says: string): StepState => ({ says, done: true });
const lacking = (says: string): StepState => ({ says, done: false });

function roadState(
  { title, standfirst, as_tested: tested, receiver }: DraftTest,
  w: MissingWords,
): StepState {
  const things = [
    title ? '' : w.title,
    standfirst ? '' : w.standfirst,
    tested?.mass_kg === undefined ? w.mass : '',
    tested?.aboard ? '' : w.aboard,
    tested?.fuel ? '' : w.fuel,
    tested?.tyres ? '' : w.tyres,
    receiver?.what ? '' : w.receiver,
  ].filter(Boolean);
  return things.length === 0 ? told(w.nothing) : lacking(w.lacks(things.join(', ')));
}

function logsState({ logs }: TestView, w: MissingWords): StepState {
  const asks = logs.reduce((n, log) => n + (log.asks?.length ?? 0), 0);
  if (logs.length === 0) return lacking(w.logs);
  return asks > 0 ? lacking(w.asks(asks)) : told(w.logsIn(logs.length));
}

function runsState({ runs }: TestView, w: MissingWords): StepState {
  if (runs.length === 0) return lacking(w.runs);
  const unnoted = runs.filter(run => run.status === 'complete' && run.attempt === undefined).length;
  if (unnoted > 0) return lacking(w.unnoted(unnoted));
  const kept = runs.filter(run => run.kept).length;
  return told(w.runsIn(kept, runs.length - kept));
}

function conditionsState({ gaps }: TestView, { conditions = [] }: DraftTest, w: MissingWords): StepState {
  if (conditions.length === 0) return lacking(w.conditions);
  return gaps.length > 0 ? told(w.gaps(gaps.length)) : told(w.readings(conditions.length));
}

function articleState(article: string, w: MissingWords): StepState {
  const n = article.replace(/^::.*$/gm, '').match(/\S+/g)?.length ?? 0;
  return n === 0 ? lacking(w.article) : told(w.words(n));
}

function outState({ problems, signedOff }: TestView, w: MissingWords): StepState {
  const faults = problems.filter(({ severity }) => severity === 'error').length;
  if (faults > 0) return lacking(w.faults(faults));
  return signedOff === undefined ? lacking(w.unsigned) : told(w.signed);
}
