/** NMEA sentences joined into epochs: what the receiver said about one instant. */
import type { EncodedText } from './bytes.ts';
import { Midnight } from './clock-text.ts';
import { type Gga, type Rmc, readFields, Sentence, type Vtg, type WrittenSpeed } from './sentence.ts';
import { Tally } from './tally.ts';

/** All its fields from the beginning, because there are hundreds of thousands in a log. */
export class Epoch {
  /** Line of the sentence that opened it. */
  readonly line: number;
  readonly timeOfDayS: number;
  rmc: Rmc | undefined = undefined;
  gga: Gga | undefined = undefined;
  vtg: Vtg | undefined = undefined;

  constructor(line: number, timeOfDayS: number) {
    this.line = line;
    this.timeOfDayS = timeOfDayS;
  }
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
export function* readEpochs(text: EncodedText, faults: SentenceFaults): Generator<Epoch, void> {
  let open: Epoch | undefined;
  let waiting: Vtg | undefined;
  const sentences = new Sentences(text, faults);
  while (sentences.next()) {
    const { line } = sentences;
    const sentence = readFields(sentences.sentence);
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
      open = new Epoch(line, sentence.timeOfDayS);
    }
    if (sentence.type === 'GGA') open.gga ??= sentence;
    else if (open.rmc) faults.repeated.add(line);
    else {
      open.rmc = sentence;
      if (!open.vtg || !agrees(open.vtg, sentence)) {
        open.vtg = waiting && agrees(waiting, sentence) ? waiting : undefined;
      }
      waiting = undefined;
    }
  }
  if (open) yield open;
}

/** Sentences with a right checksum. Lines starting with `#` and noise between sentences are passed over. */
class Sentences {
  /** Line the sentence stands on. */
  line = 1;
  readonly sentence = new Sentence();
  private readonly text: EncodedText;
  private readonly faults: SentenceFaults;
  private at = 0;
  private atLineStart = true;

  constructor(text: EncodedText, faults: SentenceFaults) {
    this.text = text;
    this.faults = faults;
  }

  /** Goes to the next one; false at the end of the text. */
  next(): boolean {
    const { text, faults, sentence } = this;
    const { bytes } = text;
    while (this.at < bytes.length) {
      const code = bytes[this.at];
      if (code === NEWLINE) {
        this.line++;
        this.at++;
        this.atLineStart = true;
        continue;
      }
      const isRemark = code === HASH && this.atLineStart;
      this.atLineStart = false;
      if (isRemark) {
        while (this.at < bytes.length && bytes[this.at] !== NEWLINE) this.at++;
      } else if (code !== DOLLAR) {
        this.at++;
      } else {
        const state = sentence.read(text, this.at);
        this.at = sentence.next;
        if (state === 'good') return true;
        if (state === 'noise') continue;
        // Only the file's end, without a line end before it, can have cut a sentence off.
        if (sentence.next === bytes.length) faults.cutOffLine = this.line;
        else if (state === 'bad-checksum') faults.badChecksum.add(this.line);
        else faults.noChecksum.add(this.line);
      }
    }
    return false;
  }
}

const HASH = 35;
const DOLLAR = 36;
const NEWLINE = 10;

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
export function firstDayS(text: EncodedText): number | undefined {
  for (const { rmc } of readEpochs(text, new SentenceFaults())) {
    if (rmc?.valid && rmc.dayS !== undefined) return rmc.dayS;
  }
  return undefined;
}
