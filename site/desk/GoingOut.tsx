/** Step 8: what stands against it, the press folder, and the moment the numbers are held. */
import { useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import { Problems } from './Problems.tsx';
import { readAgain, sendAll } from './saving.ts';
import { download, Refused, send } from './server.ts';
import { said, view } from './state.ts';
import { words } from './words.ts';

export function GoingOut() {
  const { out: w } = words();
  const { id, problems, signedOff } = view.value!;
  const [working, setWorking] = useState(false);
  const [sure, setSure] = useState(false);
  const [done, setDone] = useState<string | undefined>(undefined);
  const [refused, setRefused] = useState<readonly Problem[]>([]);
  const faults = problems.filter(({ severity }) => severity === 'error');
  const doubts = problems.filter(({ severity }) => severity !== 'error');

  const act = async (what: () => Promise<string>) => {
    setWorking(true);
    setDone(undefined);
    setRefused([]);
    try {
      await sendAll();
      const told = await what();
      setDone(told);
      said.value = told;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setRefused(error.problems);
    } finally {
      setWorking(false);
    }
  };
  const path = `test/${encodeURIComponent(id)}`;

  return (
    <>
      <p class="lead">{w.lead}</p>
      {faults.length === 0 ? <p>{w.clean}</p> : <h2>{w.faults}</h2>}
      {faults.length > 0 && <Problems problems={faults} />}
      {doubts.length > 0 && (
        <details>
          <summary>{w.warnings}</summary>
          <Problems problems={doubts} />
        </details>
      )}
      <h2>{w.press}</h2>
      <p>{w.pressHint}</p>
      <button
        type="button"
        disabled={working || faults.length > 0}
        onClick={() => void act(async () => w.exported(await download(`${path}/export`, { what: 'press' })))}
      >
        {w.exportPress}
      </button>
      <h2>{w.signOff}</h2>
      <p>{w.signOffHint}</p>
      <p>{signedOff === undefined ? w.notSigned : w.signed(signedOff.date)}</p>
      <label class="tick">
        <input type="checkbox" checked={sure} onChange={event => setSure(event.currentTarget.checked)} />
        {w.sure}
      </label>
      <button
        type="button"
        disabled={working || !sure || faults.length > 0}
        onClick={() =>
          void act(async () => {
            const answer = await send<{ says?: string }>('POST', `${path}/sign-off`, {
              ...(signedOff === undefined ? {} : { again: true }),
            });
            await readAgain();
            return answer.says ?? '';
          })
        }
      >
        {signedOff === undefined ? w.sign : w.again}
      </button>
      <p role="status">{working ? w.working : done}</p>
      {refused.length > 0 && <Problems problems={refused} />}
    </>
  );
}
