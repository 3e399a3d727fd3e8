/** Two versions of one file side by side; nothing is written until the person has chosen. */
import { useEffect, useRef } from 'preact/hooks';
import type { Conflict } from './answers.ts';
import { describedConflict, keepDescriptionOnDisk, keepOurDescription } from './describing.ts';
import { linesApart, type MarkedLine } from './lines-apart.ts';
import { keepDisk, keepOurs } from './saving.ts';
import { conflict } from './state.ts';
import { words } from './words.ts';

/** Of the test or its article. */
export const TestConflict = () => <Versions of={conflict.value!} onOurs={keepOurs} onDisk={keepDisk} />;

/** Of a car or a road. */
export const DescribedConflict = () => (
  <Versions
    of={describedConflict.value!}
    name={describedConflict.value!.name}
    onOurs={keepOurDescription}
    onDisk={keepDescriptionOnDisk}
  />
);

interface VersionsProps {
  readonly of: Conflict;
  readonly name?: string;
  readonly onOurs: () => Promise<void>;
  readonly onDisk: () => Promise<void>;
}

function Versions({ of: { yours, onDisk: disk }, name, onOurs, onDisk }: VersionsProps) {
  const w = words().conflict;
  const { one, other } = linesApart(yours, disk);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section class="conflict" aria-labelledby="conflict-title">
      <h2 id="conflict-title" ref={heading} tabIndex={-1}>
        {w.title}
        {name !== undefined && `: ${name}`}
      </h2>
      <p>{w.lead}</p>
      <div class="versions">
        <Version title={w.yours} lines={one} only={w.only} />
        <Version title={w.disk} lines={other} only={w.only} />
      </div>
      <div class="buttons">
        <button type="button" onClick={() => void onOurs().catch(() => {})}>
          {w.keepYours}
        </button>
        <button type="button" onClick={() => void onDisk().catch(() => {})}>
          {w.keepDisk}
        </button>
      </div>
    </section>
  );
}

interface VersionProps {
  readonly title: string;
  readonly lines: readonly MarkedLine[];
  readonly only: string;
}

function Version({ title, lines, only }: VersionProps) {
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <pre tabIndex={0}>
        {lines.map((line, i) => (
          <span key={i} class={line.only ? 'only' : undefined}>
            {line.only && <span class="unseen">{only}: </span>}
            {line.text}
            {'\n'}
          </span>
        ))}
      </pre>
    </section>
  );
}
