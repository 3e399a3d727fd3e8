/** Step 3: the day as a strip, the runs found on it, and what the tester noted. */
import { findingRuns, refusedLogs } from './log-drop.ts';
import { Notes } from './Notes.tsx';
import { Problems } from './Problems.tsx';
import { RunsTable } from './RunsTable.tsx';
import { Strip } from './Strip.tsx';
import { reading, view } from './state.ts';
import { logsToStrips } from './strip-data.ts';
import { words } from './words.ts';

export function Runs() {
  const { runs: w } = words();
  const { logs, runs } = view.value!;
  const strips = logsToStrips(logs);
  return (
    <>
      <p class="lead">{w.lead}</p>
      {reading.value[0] !== undefined && <p role="status">{words().logs.reading(reading.value[0])}</p>}
      {refusedLogs.value.length > 0 && <Problems problems={refusedLogs.value} />}
      {strips.length === 0 && <p>{w.noLogs}</p>}
      {strips.map(strip => (
        <Strip key={strip.logs.map(({ log }) => log.file).join(' ')} strip={strip} />
      ))}
      <Notes />
      <p role="status">{findingRuns.value && w.finding}</p>
      {strips.length > 0 && !findingRuns.value && runs.length === 0 && <p>{w.none}</p>}
      {runs.length > 0 && <RunsTable />}
    </>
  );
}
