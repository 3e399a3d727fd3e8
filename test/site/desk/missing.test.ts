import { describe, expect, it } from 'vitest';
import type { RunSeen, TestView } from '../../../site/desk/answers.ts';
import { figuresPlaced, statesOf } from '../../../site/desk/missing.ts';
import { english } from '../../../site/desk/words-en.ts';

const empty: TestView = {
  id: 'x',
  version: '1',
  test: {},
  article: '',
  drawnFrom: '',
  articleVersion: '1',
  logs: [],
  runs: [],
  attempts: [],
  results: [],
  verdicts: [],
  gaps: [],
  problems: [],
  undo: 0,
  redo: 0,
  figures: [],
  overlays: [],
  tables: [],
  sizes: [],
};
const run: RunSeen = {
  log: 'logs/a.csv',
  number: 1,
  kind: 'standing-start',
  status: 'complete',
  beginsS: 1,
  endsS: 2,
  topKmh: 100,
  kept: true,
  flags: [],
};
const of = (view: Partial<TestView>, article = '') =>
  statesOf({ view: { ...empty, ...view }, test: view.test ?? {}, article, overlaysChosen: 0 }, english);

describe('what each step lacks', () => {
  it('is named thing by thing at the road', () => {
    const { road } = of({ test: { title: 'T', as_tested: { mass_kg: 1500 } } });
    expect(road.done).toBe(false);
    for (const thing of ['fuel', 'tyres', 'receiver', 'who was aboard']) expect(road.says).toContain(thing);
    expect(road.says).not.toContain('mass');
  });

  it('is a log, a reading, a run and a word where there is nothing', () => {
    const states = of({});
    expect([states.logs.done, states.runs.done, states.conditions.done, states.article.done]).toEqual([
      false,
      false,
      false,
      false,
    ]);
  });

  it('counts complete runs without a note, and lets broken off ones be', () => {
    expect(of({ runs: [run, { ...run, number: 2, status: 'aborted' }] }).runs.says).toBe(
      '1 run without a note',
    );
    expect(of({ runs: [{ ...run, attempt: 0 }] }).runs).toEqual({ says: '1 kept', done: true });
  });

  it('counts words of the article without its figures', () => {
    expect(of({}, 'Two words\n\n::figure{show=braking}\n').article.says).toBe('2 words');
  });

  it('counts faults before sign-off', () => {
    const problem = { id: 'x', severity: 'error', what: 'x', mend: 'x' } as const;
    expect(of({ problems: [problem] })['going-out']).toEqual({
      says: '1 thing to be put right',
      done: false,
    });
  });
});

describe('figures in an article', () => {
  it('are found by their kind, in their order, and not inside a line', () => {
    const article =
      '::figure{show=braking}\ntext ::figure{show=no}\n::figure{attempts="best" show="time-gained"}\n';
    expect(figuresPlaced(article)).toEqual(['braking', 'time-gained']);
  });
});
