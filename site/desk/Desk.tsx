/** The whole page: the contents on the left, the form in the middle, what the day says in the margin. */
import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import { Article } from './Article.tsx';
import type { ChangeTold, TestView } from './answers.ts';
import { Begin } from './Begin.tsx';
import { Conditions } from './Conditions.tsx';
import { DescribedConflict, TestConflict } from './Conflict.tsx';
import { Contents } from './Contents.tsx';
import { Day } from './Day.tsx';
import { describedConflict, readPublication, resumeDescribing } from './describing.ts';
import { Figures } from './Figures.tsx';
import { GoingOut } from './GoingOut.tsx';
import { Logs } from './Logs.tsx';
import { takeDrops } from './log-drop.ts';
import { Problems } from './Problems.tsx';
import { Road } from './Road.tsx';
import { Runs } from './Runs.tsx';
import { Status } from './Status.tsx';
import { openTest, readAgain, step } from './saving.ts';
import { listen, Refused } from './server.ts';
import { conflict, hashOf, place, publication, STEPS, type StepId, said, view } from './state.ts';
import { TestList } from './TestList.tsx';
import { Video } from './Video.tsx';
import { words } from './words.ts';

const FORMS: Readonly<Record<StepId, () => preact.JSX.Element>> = {
  road: Road,
  logs: Logs,
  runs: Runs,
  conditions: Conditions,
  figures: Figures,
  video: Video,
  article: Article,
  'going-out': GoingOut,
};

/** Shows where the address says. */
export function Desk() {
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const id = place.value.test;
  useEffect(() => {
    void telling(setProblems, readPublication).then(resumeDescribing);
    void listen(told => {
      // A car, a road or the house: what is measured with it follows too.
      if (told.test === null) void readPublication().catch(() => {});
      if (told.test === null || isNews(told, view.value)) void readAgain().catch(() => {});
    });
    addEventListener('keydown', onKey);
    const noDrop = takeDrops();
    return () => {
      removeEventListener('keydown', onKey);
      noDrop();
    };
  }, []);
  useEffect(() => {
    setProblems([]);
    if (id === undefined) view.value = undefined;
    else void telling(setProblems, () => openTest(id));
  }, [id]);
  useEffect(() => {
    document.documentElement.lang = publication.value?.house.language?.slice(0, 2) === 'de' ? 'de' : 'en';
  }, [publication.value?.house.language]);

  const w = words();
  return (
    <>
      {/* biome-ignore lint/a11y/useValidAnchor: it leads to a place on the page; the address keeps the step */}
      <a class="skip" href="#form" onClick={focusForm}>
        {w.skip}
      </a>
      <header class="desk-head">
        <p class="house">
          <a href="#/">{publication.value?.house.name ?? w.desk}</a>
        </p>
        <nav aria-label={w.desk}>
          <a href="#/">{w.allTests}</a>
        </nav>
      </header>
      {problems.length > 0 && (
        <main id="form" class="sheet-of-form" tabIndex={-1}>
          <h1>{w.refusedHere}</h1>
          <p>{w.noToken}</p>
          <Problems problems={problems} />
        </main>
      )}
      {problems.length === 0 && <Page />}
      <p class="unseen" role="status">
        {said.value}
      </p>
      <footer class="desk-foot">
        <p class="caution">
          <strong>{w.cautionTitle}</strong> {w.caution}
        </p>
      </footer>
    </>
  );
}

/** Whether files of the open test are at other versions than the page has. */
function isNews({ test, changed, versions }: ChangeTold, open: TestView | undefined): boolean {
  if (open === undefined || test !== open.id) return false;
  const folder = `content/tests/${open.id}`;
  const known = (file: string): boolean => {
    const version = versions[file];
    if (version === undefined) return false;
    if (file === `${folder}/test.yaml`) return version === open.version;
    if (file === `${folder}/article.md`) return version === open.articleVersion;
    return open.logs.some(log => `${folder}/${log.file}` === file && log.version?.startsWith(version));
  };
  return !changed.every(known);
}

async function telling(set: (problems: readonly Problem[]) => void, act: () => Promise<void>) {
  try {
    await act();
  } catch (error) {
    if (error instanceof Refused) set(error.problems);
    else set([{ id: 'desk-away', severity: 'error', what: words().saving.waiting, mend: words().noToken }]);
  }
}

function Page() {
  const { test, step: at, isNew } = place.value;
  const w = words();
  if (test === undefined) {
    return (
      <main id="form" class="sheet-of-form alone" tabIndex={-1}>
        {isNew ? <Begin /> : <TestList />}
      </main>
    );
  }
  if (view.value?.id !== test) {
    return (
      <main id="form" class="sheet-of-form alone" tabIndex={-1}>
        <p>{w.loading}</p>
      </main>
    );
  }
  const Form = FORMS[at];
  const number = STEPS.indexOf(at);
  const following = STEPS[number + 1];
  return (
    <div class="spread">
      <Contents />
      <main id="form" class="sheet-of-form" tabIndex={-1}>
        {conflict.value !== undefined && <TestConflict />}
        {describedConflict.value !== undefined && <DescribedConflict />}
        <h1>
          <span class="number">{number + 1}</span> {w.steps[at]}
        </h1>
        <Form key={`${test} ${at}`} />
        {following !== undefined && (
          <p class="onward">
            <a class="button" href={hashOf(test, following)} onClick={toTop}>
              {w.next(w.steps[following])}
            </a>
          </p>
        )}
      </main>
      <Day />
      <Status />
    </div>
  );
}

function focusForm(event: Event): void {
  event.preventDefault();
  document.getElementById('form')?.focus();
}

/** A new page of the form is read from its top. */
function toTop(): void {
  scrollTo(0, 0);
  setTimeout(() => document.getElementById('form')?.focus({ preventScroll: true }));
}

/** Undo and redo from anywhere but inside a field, where the keys belong to its own text. */
function onKey(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  if (key !== 'z' && key !== 'y') return;
  if (
    event.target instanceof HTMLElement &&
    event.target.matches('input, textarea, select, [contenteditable]')
  )
    return;
  event.preventDefault();
  void step(key === 'y' || event.shiftKey ? 'redo' : 'undo').catch(() => {});
}
