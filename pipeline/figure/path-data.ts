/** SVG path data as straight lines and cubic curves in absolute places (SVG 2, chapter 9). */

export type Segment =
  | { readonly to: 'M' | 'L'; readonly points: readonly [x: number, y: number] }
  | {
      readonly to: 'C';
      readonly points: readonly [number, number, number, number, x: number, y: number];
    }
  | { readonly to: 'Z' };

/** Numbers a command takes; after M and m further pairs are lines. */
const TAKES: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  H: 1,
  V: 1,
  C: 6,
  S: 4,
  Q: 4,
  T: 2,
  A: 7,
  Z: 0,
};

/** @throws RangeError where the data is not path data. */
export function pathSegments(d: string): readonly Segment[] {
  const segments: Segment[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  // Where the last control point of a curve would be mirrored to.
  let [mirrorX, mirrorY, mirrored] = [0, 0, ''];
  const cubic = (x1: number, y1: number, x2: number, y2: number, toX: number, toY: number) => {
    segments.push({ to: 'C', points: [x1, y1, x2, y2, toX, toY] });
    [x, y] = [toX, toY];
  };
  const step = (command: string, relative: boolean, n: readonly number[]): void => {
    const [dx, dy] = relative ? [x, y] : [0, 0];
    const before = mirrored;
    mirrored = '';
    switch (command) {
      case 'M':
      case 'L':
        [x, y] = [n[0]! + dx, n[1]! + dy];
        if (command === 'M') [startX, startY] = [x, y];
        segments.push({ to: command, points: [x, y] });
        return;
      case 'H':
      case 'V':
        if (command === 'H') x = n[0]! + dx;
        else y = n[0]! + dy;
        segments.push({ to: 'L', points: [x, y] });
        return;
      case 'C':
      case 'S': {
        const first = command === 'C' ? n.slice(0, 2) : undefined;
        const [x2, y2, toX, toY] = (command === 'C' ? n.slice(2) : n) as [number, number, number, number];
        const [x1, y1] =
          first !== undefined
            ? [first[0]! + dx, first[1]! + dy]
            : before === 'C'
              ? [mirrorX, mirrorY]
              : [x, y];
        cubic(x1, y1, x2 + dx, y2 + dy, toX + dx, toY + dy);
        [mirrorX, mirrorY, mirrored] = [2 * x - (x2 + dx), 2 * y - (y2 + dy), 'C'];
        return;
      }
      case 'Q':
      case 'T': {
        const [qx, qy] =
          command === 'Q' ? [n[0]! + dx, n[1]! + dy] : before === 'Q' ? [mirrorX, mirrorY] : [x, y];
        const [toX, toY] = [n.at(-2)! + dx, n.at(-1)! + dy];
        cubic(
          x + (2 / 3) * (qx - x),
          y + (2 / 3) * (qy - y),
          toX + (2 / 3) * (qx - toX),
          toY + (2 / 3) * (qy - toY),
          toX,
          toY,
        );
        [mirrorX, mirrorY, mirrored] = [2 * x - qx, 2 * y - qy, 'Q'];
        return;
      }
      case 'A': {
        const [rx, ry, turn, large, sweep, toX, toY] = n as [
          number,
          number,
          number,
          number,
          number,
          number,
          number,
        ];
        for (const curve of arcCurves({ x, y }, { x: toX + dx, y: toY + dy }, rx, ry, turn, large, sweep)) {
          cubic(...curve);
        }
        return;
      }
      default:
        segments.push({ to: 'Z' });
        [x, y] = [startX, startY];
    }
  };
  for (const [, letter = '', rest = ''] of d.matchAll(/([a-zA-Z])([^a-zA-Z]*(?:[eE][-+]?\d+[^a-zA-Z]*)*)/g)) {
    const command = letter.toUpperCase();
    const takes = TAKES[command];
    const numbers = numbersOf(rest, command);
    if (takes === undefined || (takes === 0 ? numbers.length > 0 : numbers.length % takes > 0)) {
      throw new RangeError(`Path data not understood: ${letter}${rest}`);
    }
    if (takes === 0) step(command, false, []);
    for (let at = 0; takes > 0 && at < numbers.length; at += takes) {
      const again = command === 'M' && at > 0 ? 'L' : command;
      step(again, letter !== command, numbers.slice(at, at + takes));
    }
  }
  return segments;
}

const ONE_NUMBER = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;
/** Numbers with nothing but white space and commas between. */
const PLAIN_NUMBERS = /^(?:[\s,]*[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)*[\s,]*$/;

/** Arc flags are single digits that may stand against the next number. */
function numbersOf(text: string, command: string): readonly number[] {
  if (command !== 'A') {
    // Outlines of a page are tens of thousands of these: one pass over each.
    const all = PLAIN_NUMBERS.test(text) ? text.match(ONE_NUMBER) : undefined;
    if (all === undefined) throw new RangeError(`Path data not understood: ${text}`);
    return (all ?? []).map(Number);
  }
  const number = /^[\s,]*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)/;
  const flag = /^[\s,]*([01])/;
  const found: number[] = [];
  let rest = text;
  while (rest.trim() !== '' && rest.trim() !== ',') {
    const isFlag = found.length % 7 === 3 || found.length % 7 === 4;
    const match = (isFlag ? flag : number).exec(rest);
    if (match === null) throw new RangeError(`Path data not understood: ${text}`);
    found.push(Number(match[1]));
    rest = rest.slice(match[0].length);
  }
  return found;
}

interface Place {
  readonly x: number;
  readonly y: number;
}
type Curve = [number, number, number, number, number, number];

/** An elliptical arc as cubic curves of at most a quarter turn (SVG 2, implementation notes, B.2.4 and B.2.5). */
function arcCurves(
  from: Place,
  to: Place,
  radiusX: number,
  radiusY: number,
  turnDeg: number,
  large: number,
  sweep: number,
): readonly Curve[] {
  let [rx, ry] = [Math.abs(radiusX), Math.abs(radiusY)];
  if (from.x === to.x && from.y === to.y) return [];
  if (rx === 0 || ry === 0) return [[from.x, from.y, to.x, to.y, to.x, to.y]];
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [halfX, halfY] = [(from.x - to.x) / 2, (from.y - to.y) / 2];
  const x1 = cos * halfX + sin * halfY;
  const y1 = cos * halfY - sin * halfX;
  const tooSmall = Math.sqrt((x1 / rx) ** 2 + (y1 / ry) ** 2);
  if (tooSmall > 1) [rx, ry] = [rx * tooSmall, ry * tooSmall];
  const under = (rx * y1) ** 2 + (ry * x1) ** 2;
  const share = Math.sqrt(Math.max(0, ((rx * ry) ** 2 - under) / under)) * (large === sweep ? -1 : 1);
  const [cx1, cy1] = [(share * rx * y1) / ry, (-share * ry * x1) / rx];
  const cx = cos * cx1 - sin * cy1 + (from.x + to.x) / 2;
  const cy = sin * cx1 + cos * cy1 + (from.y + to.y) / 2;
  const begins = Math.atan2((y1 - cy1) / ry, (x1 - cx1) / rx);
  const ends = Math.atan2((-y1 - cy1) / ry, (-x1 - cx1) / rx);
  let sweeps = ends - begins;
  if (sweep === 1 && sweeps < 0) sweeps += 2 * Math.PI;
  if (sweep === 0 && sweeps > 0) sweeps -= 2 * Math.PI;
  const count = Math.max(1, Math.ceil(Math.abs(sweeps) / (Math.PI / 2) - 1e-9));
  const step = sweeps / count;
  const pull = (4 / 3) * Math.tan(step / 4);
  const place = (px: number, py: number): [number, number] => [
    cos * rx * px - sin * ry * py + cx,
    sin * rx * px + cos * ry * py + cy,
  ];
  return Array.from({ length: count }, (_, nth): Curve => {
    const a = begins + nth * step;
    const b = a + step;
    return [
      ...place(Math.cos(a) - pull * Math.sin(a), Math.sin(a) + pull * Math.cos(a)),
      ...place(Math.cos(b) + pull * Math.sin(b), Math.sin(b) - pull * Math.cos(b)),
      ...place(Math.cos(b), Math.sin(b)),
    ];
  });
}
