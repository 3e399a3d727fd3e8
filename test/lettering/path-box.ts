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
  // Every one of these commands takes pairs. Read digit by digit: cutting a path into texts takes several times as long.
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  let axis = 0;
  for (let at = 0; at < path.length; ) {
    if (!isOfNumber(path.charCodeAt(at))) {
      at++;
      continue;
    }
    const from = at;
    let digits = 0;
    let places = -1;
    for (; at < path.length && isOfNumber(path.charCodeAt(at)); at++) {
      const code = path.charCodeAt(at);
      if (code !== POINT) {
        digits = digits * 10 + code - DIGIT_0;
        if (places >= 0) places++;
      } else if (places < 0) places = 0;
      else throw new Error(`no number: ${path.slice(from, at + 1)}`);
    }
    if (places === at - from - 1 && places === 0) throw new Error(`no number: ${path.slice(from, at)}`);
    // One division of whole numbers is rounded as the decimal number itself would be.
    const size = places > 0 ? digits / 10 ** places : digits;
    const value = path.charCodeAt(from - 1) === MINUS ? -size : size;
    if (value < box[axis]!) box[axis] = value;
    if (value > box[axis + 2]!) box[axis + 2] = value;
    axis = 1 - axis;
  }
  const [left, top, right, bottom] = box as [number, number, number, number];
  return { left, top, right, bottom };
}

const [MINUS, POINT, DIGIT_0, DIGIT_9] = [0x2d, 0x2e, 0x30, 0x39];
const isOfNumber = (code: number): boolean => code === POINT || (code >= DIGIT_0 && code <= DIGIT_9);
