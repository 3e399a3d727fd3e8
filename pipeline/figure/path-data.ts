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

/** Hears a path in straight lines and cubic curves, in absolute places. */
export interface PathListener {
  move(x: number, y: number): void;
  line(x: number, y: number): void;
  cubic(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void;
  close(): void;
}

/** @throws RangeError where the data is not path data. */
export function pathSegments(d: string): readonly Segment[] {
  const segments: Segment[] = [];
  tellPath(d, {
    move: (x, y) => segments.push({ to: 'M', points: [x, y] }),
    line: (x, y) => segments.push({ to: 'L', points: [x, y] }),
    cubic: (x1, y1, x2, y2, x, y) => segments.push({ to: 'C', points: [x1, y1, x2, y2, x, y] }),
    close: () => segments.push({ to: 'Z' }),
  });
  return segments;
}

/**
 * Tells a path piece by piece: outlines of a page are tens of thousands of these, and lists of them took most of the
 * time of making one.
 * @throws RangeError where the data is not path data, after what comes before it was told.
 */
export function tellPath(d: string, listener: PathListener): void {
  const reader = new NumberReader(d);
  let [x, y, startX, startY] = [0, 0, 0, 0];
  // Where the last control point of a curve would be mirrored to.
  let [mirrorX, mirrorY, mirrored] = [0, 0, ''];
  const cubic = (x1: number, y1: number, x2: number, y2: number, toX: number, toY: number) => {
    listener.cubic(x1, y1, x2, y2, toX, toY);
    x = toX;
    y = toY;
  };
  const n = new Float64Array(7);
  const step = (command: string, relative: boolean): void => {
    const dx = relative ? x : 0;
    const dy = relative ? y : 0;
    const before = mirrored;
    mirrored = '';
    switch (command) {
      case 'M':
        x = n[0]! + dx;
        y = n[1]! + dy;
        startX = x;
        startY = y;
        listener.move(x, y);
        return;
      case 'L':
        x = n[0]! + dx;
        y = n[1]! + dy;
        listener.line(x, y);
        return;
      case 'H':
        x = n[0]! + dx;
        listener.line(x, y);
        return;
      case 'V':
        y = n[0]! + dy;
        listener.line(x, y);
        return;
      case 'C':
      case 'S': {
        const own = command === 'C';
        const x1 = own ? n[0]! + dx : before === 'C' ? mirrorX : x;
        const y1 = own ? n[1]! + dy : before === 'C' ? mirrorY : y;
        const at = own ? 2 : 0;
        const x2 = n[at]! + dx;
        const y2 = n[at + 1]! + dy;
        cubic(x1, y1, x2, y2, n[at + 2]! + dx, n[at + 3]! + dy);
        mirrorX = 2 * x - x2;
        mirrorY = 2 * y - y2;
        mirrored = 'C';
        return;
      }
      case 'Q':
      case 'T': {
        const own = command === 'Q';
        const qx = own ? n[0]! + dx : before === 'Q' ? mirrorX : x;
        const qy = own ? n[1]! + dy : before === 'Q' ? mirrorY : y;
        const toX = n[own ? 2 : 0]! + dx;
        const toY = n[own ? 3 : 1]! + dy;
        cubic(
          x + (2 / 3) * (qx - x),
          y + (2 / 3) * (qy - y),
          toX + (2 / 3) * (qx - toX),
          toY + (2 / 3) * (qy - toY),
          toX,
          toY,
        );
        mirrorX = 2 * x - qx;
        mirrorY = 2 * y - qy;
        mirrored = 'Q';
        return;
      }
      case 'A': {
        const [rx, ry, turn, large, sweep, toX, toY] = n as unknown as Curve7;
        for (const curve of arcCurves({ x, y }, { x: toX + dx, y: toY + dy }, rx, ry, turn, large, sweep)) {
          cubic(...curve);
        }
        return;
      }
      default:
        listener.close();
        x = startX;
        y = startY;
    }
  };
  for (let letter = reader.letter(); letter !== ''; letter = reader.letter()) {
    const command = letter.toUpperCase();
    const takes = TAKES[command];
    const relative = letter !== command;
    if (takes === undefined) throw reader.notUnderstood();
    if (takes === 0) step(command, false);
    for (let again = command; takes > 0 && reader.hasNumber(); again = command === 'M' ? 'L' : command) {
      for (let k = 0; k < takes; k++)
        n[k] = command === 'A' && (k === 3 || k === 4) ? reader.flag() : reader.number();
      step(again, relative);
    }
  }
}

type Curve7 = [number, number, number, number, number, number, number];

const [PLUS, COMMA, MINUS, POINT, DIGIT_0, DIGIT_9] = [0x2b, 0x2c, 0x2d, 0x2e, 0x30, 0x39];
const TENS = Array.from({ length: 23 }, (_, power) => 10 ** power);
/** Whole numbers of so many digits are exact, and so is their share of a power of ten, rounded once. */
const EXACT_DIGITS = 15;
const WITH_EXPONENT = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/y;

/** Letters and numbers of path data in their order. */
class NumberReader {
  private at = 0;
  private readonly d: string;
  constructor(d: string) {
    this.d = d;
  }

  notUnderstood(): RangeError {
    return new RangeError(
      `Path data not understood: ${this.d.slice(Math.max(0, this.at - 20), this.at + 20)}`,
    );
  }

  /** The command that comes next; empty at the end. */
  letter(): string {
    this.skip();
    if (this.at === this.d.length) return '';
    const letter = this.d[this.at++]!;
    if (!/[a-zA-Z]/.test(letter)) throw this.notUnderstood();
    return letter;
  }

  hasNumber(): boolean {
    this.skip();
    const code = this.d.charCodeAt(this.at);
    return isDigit(code) || code === PLUS || code === MINUS || code === POINT;
  }

  /** Flags of an arc are single digits that may stand against the next number. */
  flag(): number {
    this.skip();
    const flag = this.d.charCodeAt(this.at++) - DIGIT_0;
    if (flag !== 0 && flag !== 1) throw this.notUnderstood();
    return flag;
  }

  /** As `Number` would read it. */
  number(): number {
    this.skip();
    const { d } = this;
    const begin = this.at;
    let at = begin;
    const sign = d.charCodeAt(at);
    if (sign === MINUS || sign === PLUS) at++;
    let whole = 0;
    let digits = 0;
    let code = d.charCodeAt(at);
    for (; isDigit(code); code = d.charCodeAt(++at)) {
      whole = whole * 10 + (code - DIGIT_0);
      digits++;
    }
    let decimals = 0;
    if (code === POINT) {
      for (code = d.charCodeAt(++at); isDigit(code); code = d.charCodeAt(++at)) {
        whole = whole * 10 + (code - DIGIT_0);
        digits++;
        decimals++;
      }
    }
    if (digits === 0) throw this.notUnderstood();
    if (digits > EXACT_DIGITS || code === 0x65 || code === 0x45) {
      WITH_EXPONENT.lastIndex = begin;
      const text = WITH_EXPONENT.exec(d)![0];
      this.at = begin + text.length;
      return Number(text);
    }
    this.at = at;
    const size = decimals === 0 ? whole : whole / TENS[decimals]!;
    return sign === MINUS ? -size : size;
  }

  private skip(): void {
    for (;;) {
      const code = this.d.charCodeAt(this.at);
      if (code !== 0x20 && code !== COMMA && !(code >= 0x09 && code <= 0x0d)) return;
      this.at++;
    }
  }
}

const isDigit = (code: number): boolean => code >= DIGIT_0 && code <= DIGIT_9;

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
