/** Bounding box of SVG path data made of absolute M, L, Q, C and Z; control points count as part of it. */
export interface PathBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** @throws Error on any other command, and on what is no number. */
export function pathBox(path: string): PathBox {
  if (!/^[MLQCZ\d. -]*$/.test(path)) throw new Error(`unexpected in path data: ${path.slice(0, 80)}`);
  // Every one of these commands takes pairs.
  const numbers = path.match(/-?[\d.]+/g) ?? [];
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (let at = 0; at < numbers.length; at++) {
    const axis = at % 2;
    const value = Number(numbers[at]);
    if (Number.isNaN(value)) throw new Error(`no number: ${numbers[at]}`);
    if (value < box[axis]!) box[axis] = value;
    if (value > box[axis + 2]!) box[axis + 2] = value;
  }
  const [left, top, right, bottom] = box as [number, number, number, number];
  return { left, top, right, bottom };
}
