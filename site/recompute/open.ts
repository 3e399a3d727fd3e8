/** Fetches nothing until a reader opens the part, and then the rest of the script. */
const own = document.querySelector<HTMLDetailsElement>('details.own');

async function onOpen(): Promise<void> {
  if (own === null || !own.open || own.dataset.begun !== undefined) return;
  own.dataset.begun = '';
  const { begin } = await import('./reckon.ts');
  // After a failure the next opening tries again.
  if (!(await begin(own))) delete own.dataset.begun;
}

own?.addEventListener('toggle', () => void onOpen());
void onOpen();
