/**
 * Edit decision lists read back by a parser of their own, written from published descriptions of the CMX 3600 list
 * and sharing nothing with the writer: the column order and sample list of the Videonics AB-1 manual (p. 88), frame
 * code mode and exclusive out points as in the OpenTimelineIO project's description of its CMX 3600 adapter.
 * Reels of eight characters and locator comments are common practice, no source. No kept library was found.
 */
import { describe, expect, it } from 'vitest';
import { frameToSeconds, labelsPerSecond } from '../../pipeline/overlay/timecode.ts';
import { timelineToEdl } from '../../pipeline/timeline/edl.ts';
import { placeRuns, programmeBegins } from '../../pipeline/timeline/timeline.ts';
import { AWKWARD, COUNTINGS, clipTimeline, dayTimeline } from '../timeline/fixture.ts';

interface Event {
  readonly number: number;
  readonly reel: string;
  readonly times: readonly string[];
  readonly clipName?: string;
  readonly locators: readonly string[];
}

interface EditList {
  readonly title: string;
  readonly drop: boolean;
  readonly events: readonly Event[];
}

const TIMECODE = String.raw`\d{2}:[0-5]\d:[0-5]\d[:;]\d{2}`;
const EVENT = new RegExp(
  `^(\\d{3}) {2}([A-Z0-9]{1,8}) +(V|A|B|A2) +(C) +(${TIMECODE}) (${TIMECODE}) (${TIMECODE}) (${TIMECODE})$`,
);

/** Strict: any line that is none of the list's own is an error. */
function parseEdl(text: string): EditList {
  expect(text).toMatch(/^[\x20-\x7e\r\n]*$/);
  expect(text.endsWith('\r\n')).toBe(true);
  const [titleLine = '', modeLine = '', ...lines] = text.trimEnd().split('\r\n');
  const title = /^TITLE: (.{1,70})$/.exec(titleLine)?.[1];
  const mode = /^FCM: (DROP FRAME|NON-DROP FRAME)$/.exec(modeLine)?.[1];
  if (title === undefined || mode === undefined) throw new Error(`Not a head: ${titleLine} / ${modeLine}`);
  const events: { number: number; reel: string; times: string[]; clipName?: string; locators: string[] }[] =
    [];
  for (const line of lines) {
    if (line === '') continue;
    const last = events.at(-1);
    const event = EVENT.exec(line);
    const clipName = /^\* FROM CLIP NAME: (.+)$/.exec(line)?.[1];
    const locator = new RegExp(`^\\* LOC: (${TIMECODE}) [A-Z]+ +(.+)$`).exec(line)?.[1];
    if (event) {
      events.push({ number: Number(event[1]), reel: event[2]!, times: event.slice(5), locators: [] });
    } else if (last && clipName !== undefined) {
      last.clipName = clipName;
    } else if (last && locator !== undefined) {
      last.locators.push(locator);
    } else {
      throw new Error(`Not a line of a list: ${line}`);
    }
  }
  return { title, drop: mode === 'DROP FRAME', events };
}

/** Frame of a label, by counting labels from midnight as the rule says: slow, and nothing like the pipeline's way. */
function countTo(label: string, perSecond: number, drop: boolean): number {
  const [hours = 0, minutes = 0, seconds = 0, frames = 0] = label.split(/[:;]/).map(Number);
  const dropped = drop ? perSecond / 15 : 0;
  let frame = 0;
  for (let minute = 0; minute < hours * 60 + minutes; minute++) {
    frame += perSecond * 60 - (minute % 10 === 0 ? 0 : dropped);
  }
  return frame + seconds * perSecond + frames - (minutes % 10 === 0 ? 0 : dropped);
}

describe('edit decision lists', () => {
  it.each(COUNTINGS)('at %s, %s, hold every run with its source and record times', (rate, counting) => {
    for (const timeline of [clipTimeline(rate, counting), dayTimeline(rate, counting)]) {
      const { events, drop } = parseEdl(timelineToEdl(timeline));
      const placed = placeRuns(timeline);
      const perSecond = labelsPerSecond(timeline.frameRate);
      const frameOf = (label: string): number => {
        expect(label[8]).toBe(drop ? ';' : ':');
        return countTo(label, perSecond, drop);
      };
      expect(drop).toBe(counting === 'drop-frame');
      expect(events.map(({ number }) => number)).toEqual(placed.map((_, index) => index + 1));
      let recordEnd = programmeBegins(timeline);
      for (const [index, event] of events.entries()) {
        const { run } = placed[index]!;
        const [sourceIn = 0, sourceOut = 0, recordIn = 0, recordOut = 0] = event.times.map(frameOf);
        expect(sourceIn).toBe(run.movesAtFrame + run.fromFrame);
        expect(sourceOut - sourceIn).toBe(run.toFrame - run.fromFrame);
        expect(recordOut - recordIn).toBe(sourceOut - sourceIn);
        // Out points are exclusive: the next event begins where this one ends.
        expect(recordIn).toBe(recordEnd);
        recordEnd = recordOut;
        expect(event.locators.map(frameOf)).toEqual(
          run.marks.map(({ frame }) => recordIn + frame - run.fromFrame),
        );
      }
    }
  });

  it('have reels of eight letters and digits at most, and the clip’s full name beside them', () => {
    const [event] = parseEdl(timelineToEdl(clipTimeline('25', 'non-drop'))).events;
    // The last eight: cameras count at the end of a name.
    expect(event).toMatchObject({ reel: '0042UBER', clipName: 'card 1/C0042 uber.MP4' });
  });

  it('stay whole whatever a title or a name holds', () => {
    const list = parseEdl(timelineToEdl(dayTimeline('25', 'non-drop', AWKWARD)));
    expect(list.title).not.toContain('\n');
    expect(list.events.length).toBeGreaterThan(1);
  });

  it('place a split within a frame of its measured instant', () => {
    const timeline = clipTimeline('23.976', 'non-drop');
    const [run] = timeline.runs;
    const { events } = parseEdl(timelineToEdl(timeline));
    const perSecond = labelsPerSecond(timeline.frameRate);
    const recordIn = countTo(events[0]!.times[2]!, perSecond, false);
    const hundred = run!.marks.findIndex(({ name }) => name === '0–100 km/h');
    const at = countTo(events[0]!.locators[hundred]!, perSecond, false) - recordIn + run!.fromFrame;
    const printedS = Number(/in ([\d.]+)/.exec(run!.marks[hundred]!.comment)![1]);
    expect(Math.abs(frameToSeconds(at, timeline.frameRate) - printedS)).toBeLessThan(1001 / 24_000 + 0.005);
  });
});
