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

/** Sentences that could not be used, counted while reading. */
export class SentenceFaults {
  readonly badChecksum = new Tally();
  readonly noChecksum = new Tally();
  readonly badTime = new Tally();
  /** RMC sentences with no fix and no time either, as receivers send while they search; void epochs join them. */
  readonly withoutFix = new Tally();
  /** Further RMC sentences of a time that already has one. */
  readonly repeated = new Tally();
  /** Line of a last sentence without its end. */
  cutOffLine: number | undefined;
}

/**
 * Epochs one by one, RMC and GGA joined by their time. VTG has none: it belongs to the RMC beside it whose
 * knots it repeats, before or after; without any RMC, to the timed sentence before it (receivers write GGA
 * first, and at worst every speed of the log comes one epoch early alike, which moves no difference of times).
 * One at a time, because a day's epochs kept as objects take ten times the memory of the log.
 */
export function* readEpochs(text: string, faults: SentenceFaults): Generator<Epoch, void> {
  let open: Epoch | undefined;
  let waiting: Vtg | undefined;
  for (const { line, fields } of goodSentences(text, faults)) {
    const sentence = readFields(fields);
    if (sentence === undefined) continue;
    if (sentence.type === 'VTG') {
      if (!sentence.knots && !sentence.kmh) continue;
      if (open && !open.vtg && (!open.rmc || agrees(sentence, open.rmc))) open.vtg = sentence;
      else waiting = sentence;
      continue;
    }
    if (sentence.timeOfDayS === undefined) {
      if (sentence.valid) faults.badTime.add(line);
      else if (sentence.type === 'RMC') faults.withoutFix.add(line);
      continue;
    }
    if (open?.timeOfDayS !== sentence.timeOfDayS) {
      if (open) yield open;
      open = { line, timeOfDayS: sentence.timeOfDayS };
    }
    if (sentence.type === 'GGA') open.gga ??= sentence;
    else if (open.rmc) faults.repeated.add(line);
    else {
      open.rmc = sentence;
      const beside = [open.vtg, waiting].find(vtg => vtg && agrees(vtg, sentence));
      if (beside) open.vtg = beside;
      else delete open.vtg;
      waiting = undefined;
    }
  }
  if (open) yield open;
}

/** Sentences with a right checksum. Lines starting with `#` and noise between sentences are passed over. */
function* goodSentences(text: string, faults: SentenceFaults) {
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
      if (checked.state === 'good') yield { line, fields: checked.fields };
      else if (newline < 0 && stop === end && checked.state !== 'noise') faults.cutOffLine = line;
      else if (checked.state === 'bad-checksum') faults.badChecksum.add(line);
      else if (checked.state === 'no-checksum') faults.noChecksum.add(line);
      dollar = next;
    }
    start = end + 1;
  }
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
 * Times of epochs in seconds since 1970, or since the first midnight where no RMC has a date. Epochs without
 * a date stand on the day of those before them, past midnight on the next, the first ones on the first day named.
 */
export class EpochClock {
  private dayS: number;
  private midnight = new Midnight();

  constructor(firstDayS: number | undefined) {
    this.dayS = firstDayS ?? 0;
  }

  timeS({ rmc, timeOfDayS }: Epoch): number {
    if (rmc?.valid && rmc.dayS !== undefined && rmc.dayS !== this.dayS) {
      this.dayS = rmc.dayS;
      this.midnight = new Midnight();
    }
    return this.dayS + this.midnight.next(timeOfDayS);
  }
}

/** The first date that a valid RMC names, seconds since 1970. */
export function firstDayS(text: string): number | undefined {
  for (const { rmc } of readEpochs(text, new SentenceFaults())) {
    if (rmc?.valid && rmc.dayS !== undefined) return rmc.dayS;
  }
  return undefined;
}
