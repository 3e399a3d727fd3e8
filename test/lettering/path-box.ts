/** Bounding box of SVG path data made of absolute M, L, Q, C and Z; control points count as part of it. */
export interface PathBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function pathBox(path: string): PathBox {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const [, letter = '', rest = ''] of path.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    if (!'MLQCZ'.includes(letter)) throw new Error(`unexpected path command ${letter}`);
    const numbers = [...rest.matchAll(/-?[\d.]+/g)].map(match => Number(match[0]));
    for (const [index, value] of numbers.entries()) (index % 2 === 0 ? xs : ys).push(value);
  }
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}
