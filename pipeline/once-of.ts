/** What follows from an object that does not change: worked out once, and let go with it. */
export function onceOf<Key extends object, Value extends {}>(
  known: WeakMap<Key, Value>,
  key: Key,
  make: () => Value,
): Value {
  const found = known.get(key) ?? make();
  known.set(key, found);
  return found;
}
