/** Every test of the publication, newest first, and the way to a new one. */
import { hashOf, publication } from './state.ts';
import { words } from './words.ts';

export function TestList() {
  const { list: w, loading } = words();
  const all = publication.value;
  if (all === undefined) return <p>{loading}</p>;
  const nameOf = (of: readonly { id: string; name: string }[], id: string | undefined): string =>
    of.find(one => one.id === id)?.name ?? id ?? '';
  return (
    <>
      <h1>{w.title}</h1>
      <p class="lead">{w.lead}</p>
      <p>
        <a class="button main" href="#/new">
          {w.begin}
        </a>
      </p>
      {all.tests.length === 0 && <p>{w.none}</p>}
      <ul class="tests">
        {all.tests.map(({ id, title, date, car, road, signedOff }) => (
          <li key={id}>
            <a href={hashOf(id, 'road')}>
              <span class="name">{title}</span>
              <span class="hint">
                {[date, nameOf(all.cars, car), nameOf(all.roads, road)].filter(Boolean).join(', ')};{' '}
                {signedOff === undefined ? w.draft : w.signedOff(signedOff.date)}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
