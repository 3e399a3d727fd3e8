/** Work on pictures overlaps: while one is compressed in the background, the next is laid out. */

/** Pictures under way at once; more only takes memory (a 3840×2160 one holds 33 MB). */
const AT_ONCE = 4;

/** As `Promise.all(items.map(work))`, in the same order, but with only a few under way. Stops at the first failure. */
export async function fewAtOnce<T, R>(items: readonly T[], work: (item: T) => Promise<R>): Promise<R[]> {
  const results = new Array<R>(items.length);
  let next = 0;
  let failed = false;
  const worker = async (): Promise<void> => {
    while (next < items.length && !failed) {
      const index = next++;
      try {
        results[index] = await work(items[index] as T);
      } catch (error) {
        failed = true;
        throw error;
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(AT_ONCE, items.length) }, worker));
  return results;
}
