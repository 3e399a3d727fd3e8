/** Things made or read again where they were let go: so many of them held, those used last. */

/** @returns what is held under a key, or what `make` gives, which is held then; the one used longest ago goes */
export function holdingRecent<T>(most: number): (key: string, make: () => T) => T {
  const recent = new Map<string, T>();
  return (key, make) => {
    const found = recent.has(key) ? recent.get(key)! : make();
    recent.delete(key);
    recent.set(key, found);
    if (recent.size > most) recent.delete(recent.keys().next().value!);
    return found;
  };
}
