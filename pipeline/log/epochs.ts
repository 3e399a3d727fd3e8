/** NMEA sentences joined into epochs: what the receiver said about one instant. */
import { Midnight } from './clock-text.ts';
import { type Gga, type Rmc, readFields, readSentence, type Vtg, type WrittenSpeed } from './sentence.ts';
import { Tally } from './tally.ts';

export interface Epoch {
  /** Line of the sentence that opened it. */
  readonly line: number;
  readonly timeOfDayS: number;
  rmc?: Rmc;
  gga?: Gga;
  vtg?: Vtg;
}

export interface Epochs {
  readonly epochs: readonly Epoch[];
  readonly badChecksum: Tally;
  readonly noChecksum: Tally;
  readonly badTime: Tally;
  /** RMC sentences with no fix and no time either, as receivers send while they search. */
  readonly withoutFix: Tally;
  /** Further RMC sentences of a time that already has one. */
  readonly repeated: Tally;
  /** Line of a last sentence without its end. */
  readonly cutOffLine?: number;
}

/**
 * Joins RMC and GGA by their time. VTG has none: it belongs to the RMC beside it whose knots it repeats,
 * before or after; without any RMC, to the timed sentence before it (receivers write GGA first, and at
 * worst every speed of the log comes one epoch early alike, which moves no difference of times).
 * Lines starting with `#` and noise between sentences are passed over.
 */
export function textToEpochs(text: string): Epochs {
  const epochs: Epoch[] = [];
  const badChecksum = new Tally();
  const noChecksum = new Tally();
  const badTime = new Tally();
  const withoutFix = new Tally();
  const repeated = new Tally();
  let cutOffLine: number | undefined;
  let open: Epoch | undefined;
  let waiting: Vtg | undefined;

  const take = (sentence: Rmc | Vtg | Gga, line: number) => {
    if (sentence.type === 'VTG') {
      if (!sentence.knots && !sentence.kmh) return;
      if (open && !open.vtg && (!open.rmc || agrees(sentence, open.rmc))) open.vtg = sentence;
      else waiting = sentence;
      return;
    }
    if (sentence.timeOfDayS === undefined) {
      if (sentence.valid) badTime.add(line);
      else if (sentence.type === 'RMC') withoutFix.add(line);
      return;
    }
    if (open?.timeOfDayS !== sentence.timeOfDayS) {
      open = { line, timeOfDayS: sentence.timeOfDayS };
      epochs.push(open);
    }
    if (sentence.type === 'GGA') open.gga ??= sentence;
    else {
      if (open.rmc) repeated.add(line);
      open.rmc ??= sentence;
      const rmc = open.rmc;
      const beside = [open.vtg, waiting].find(vtg => vtg && agrees(vtg, rmc));
      if (beside) open.vtg = beside;
      else delete open.vtg;
      waiting = undefined;
    }
  };

  let line = 0;
  for (let start = 0; start < text.length; ) {
    line++;
    const newline = text.indexOf('\n', start);
    const end = newline < 0 ? text.length : newline;
    let dollar = text.charCodeAt(start) === 35 ? -1 : text.indexOf('$', start);
    while (dollar >= 0 && dollar < end) {
      const next = text.indexOf('$', dollar + 1);
      const stop = next >= 0 && next < end ? next : end;
      const checked = readSentence(text.slice(dollar, stop));
      if (checked.state === 'good') {
        const sentence = readFields(checked.fields);
        if (sentence) take(sentence, line);
      } else if (newline < 0 && stop === end && checked.state !== 'noise') cutOffLine = line;
      else if (checked.state === 'bad-checksum') badChecksum.add(line);
      else if (checked.state === 'no-checksum') noChecksum.add(line);
      dollar = next;
    }
    start = end + 1;
  }
  return {
    epochs,
    badChecksum,
    noChecksum,
    badTime,
    withoutFix,
    repeated,
    ...(cutOffLine === undefined ? {} : { cutOffLine }),
  };
}

/** True where both speeds in VTG are the RMC's within their printed digits, so that they are one epoch's. */
function agrees(vtg: Vtg, rmc: Rmc): boolean {
  if (!rmc.speed || !vtg.knots) return false;
  const same = (a: WrittenSpeed, b: WrittenSpeed) =>
    // A whole step, not half: some receivers cut digits off instead of rounding them.
    Math.abs(a.mps - b.mps) <= Math.max(a.stepMps, b.stepMps) * 1.001;
  return same(vtg.knots, rmc.speed) && (!vtg.kmh || same(vtg.kmh, rmc.speed));
}

/**
 * The speed of an epoch. RMC is the measured one with a time; where an agreeing VTG prints the same speed in
 * km/h to as many decimals, its step is 1.852 times finer, and the finer one is used.
 */
export function epochSpeed({ rmc, vtg }: Epoch): WrittenSpeed | undefined {
  const written = [rmc?.speed, vtg?.knots, vtg?.kmh].filter(speed => speed !== undefined);
  return written.reduce<WrittenSpeed | undefined>(
    (finest, speed) => (finest && finest.stepMps <= speed.stepMps * 1.001 ? finest : speed),
    undefined,
  );
}

/**
 * Seconds of each epoch since 1970 where any has a date, or else since the first midnight. Epochs without a
 * date stand on the day of those before them (the first ones on the first day named), past midnight on the next.
 */
export function epochTimes(epochs: readonly Epoch[]): {
  readonly timeS: readonly number[];
  readonly dated: boolean;
} {
  const dated = epochs.some(epoch => epoch.rmc?.dayS !== undefined);
  let dayS = epochs.find(epoch => epoch.rmc?.dayS !== undefined)?.rmc?.dayS ?? 0;
  let midnight = new Midnight();
  const timeS = epochs.map(({ rmc, timeOfDayS }) => {
    if (rmc?.valid && rmc.dayS !== undefined) {
      dayS = rmc.dayS;
      midnight = new Midnight();
    }
    return dayS + midnight.next(timeOfDayS);
  });
  return { timeS, dated };
}
