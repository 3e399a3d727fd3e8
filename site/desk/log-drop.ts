/** Logs dropped or chosen: handed to the server one after another, so that the day builds up in order. */
import { signal } from '@preact/signals';
import type { Problem } from '../../pipeline/problem.ts';
import { addLog, readAgain } from './saving.ts';
import { NotThere, Refused } from './server.ts';
import { hashOf, place, reading, saving } from './state.ts';

/** All are read, and the runs in them are being looked for. */
export const findingRuns = signal(false);
/** What was wrong with those that could not be taken. */
export const refusedLogs = signal<readonly Problem[]>([]);

/** Takes them all; one that is refused does not lose the others. */
export async function addLogs(files: readonly File[]): Promise<void> {
  const inOrder = [...files].sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  refusedLogs.value = [];
  reading.value = inOrder.map(({ name }) => name);
  for (const file of inOrder) {
    try {
      await addLog(file);
    } catch (error) {
      if (error instanceof Refused) refusedLogs.value = [...refusedLogs.value, ...error.problems];
      else if (error instanceof NotThere) saving.value = { is: 'waiting' };
      else throw error;
    } finally {
      reading.value = reading.value.slice(1);
    }
  }
  findingRuns.value = true;
  try {
    await readAgain();
  } catch (error) {
    if (!(error instanceof Refused || error instanceof NotThere)) throw error;
  } finally {
    findingRuns.value = false;
  }
}

/** Takes files dropped anywhere on the page of a test, so that a miss does not open the file instead. */
export function takeDrops(): () => void {
  const over = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    document.body.classList.add('dropping');
  };
  const leave = (event: DragEvent) => {
    if (event.relatedTarget === null) document.body.classList.remove('dropping');
  };
  const drop = (event: DragEvent) => {
    document.body.classList.remove('dropping');
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    const { test, step } = place.value;
    if (test === undefined) return;
    // On the strip a new log is seen as well as in the list of logs.
    if (step !== 'runs') location.hash = hashOf(test, 'logs');
    void addLogs(files);
  };
  addEventListener('dragover', over);
  addEventListener('dragleave', leave);
  addEventListener('drop', drop);
  return () => {
    removeEventListener('dragover', over);
    removeEventListener('dragleave', leave);
    removeEventListener('drop', drop);
  };
}
