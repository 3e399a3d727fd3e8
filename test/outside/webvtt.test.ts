/** WebVTT read back by the W3C's own parser and validator (w3c/webvtt.js), which reports every departure from the standard. */
import { describe, expect, it } from 'vitest';
import { WebVTTParser } from 'webvtt-parser';
import { frameToSeconds } from '../../pipeline/overlay/timecode.ts';
import { placeRuns } from '../../pipeline/timeline/timeline.ts';
import { timelineToCaptions, timelineToChapters } from '../../pipeline/timeline/webvtt.ts';
import { AWKWARD, COUNTINGS, clipTimeline, dayTimeline } from '../timeline/fixture.ts';

const parse = (text: string, mode: 'chapters' | 'subtitles/captions/descriptions') =>
  new WebVTTParser({ '&amp': '&', '&lt': '<', '&gt': '>' }).parse(text, mode);

describe('WebVTT', () => {
  it.each(COUNTINGS)('at %s, %s, is valid and has every time to a millisecond', (rate, counting) => {
    for (const timeline of [clipTimeline(rate, counting), dayTimeline(rate, counting)]) {
      const chapters = parse(timelineToChapters(timeline), 'chapters');
      const captions = parse(timelineToCaptions(timeline), 'subtitles/captions/descriptions');
      expect([...chapters.errors, ...captions.errors]).toEqual([]);
      const begins = placeRuns(timeline).flatMap(({ run, atFrame }) =>
        run.marks.map(({ frame }) => frameToSeconds(atFrame + frame - run.fromFrame, timeline.frameRate)),
      );
      for (const begin of begins) {
        const nearest = Math.min(...chapters.cues.map(({ startTime }) => Math.abs(startTime - begin)));
        expect(nearest).toBeLessThanOrEqual(0.000_501);
      }
      for (const { cues } of [chapters, captions]) {
        expect(cues.length).toBeGreaterThan(3);
        for (const [index, cue] of cues.entries()) {
          expect(cue.endTime).toBeGreaterThan(cue.startTime);
          expect(cue.startTime).toBeGreaterThanOrEqual(cues[index - 1]?.endTime ?? 0);
        }
      }
    }
  });

  it('says the start rule in every caption', () => {
    const { cues } = parse(
      timelineToCaptions(clipTimeline('25', 'non-drop')),
      'subtitles/captions/descriptions',
    );
    for (const { text } of cues) expect(text).toContain('clock from first movement');
  });

  it('stays valid whatever a name holds', () => {
    const timeline = dayTimeline('25', 'non-drop', AWKWARD);
    for (const text of [timelineToChapters(timeline), timelineToCaptions(timeline)]) {
      expect(text.split('-->').length - 1).toBe(text.match(/^\d\d:\d\d:\d\d\.\d{3} --> /gm)!.length);
    }
    expect(parse(timelineToChapters(timeline), 'chapters').errors).toEqual([]);
    const captions = parse(timelineToCaptions(timeline), 'subtitles/captions/descriptions');
    expect(captions.errors).toEqual([]);
    expect(captions.cues[0]!.text).toContain('&lt;52&gt;');
  });

  it('is told apart from what is not valid', () => {
    // The validator itself, held to a fault of each kind that these files could have.
    for (const wrong of [
      'WEBVTT\n\n00:00:01.00 --> 00:00:02.000\nx\n',
      'WEBVTT\n\n00:00:03.000 --> 00:00:02.000\nx\n',
      'WEBVTT\n\n00:00:01.000 --> 00:00:02.000\na --> b\n',
    ]) {
      expect(parse(wrong, 'subtitles/captions/descriptions').errors.length).toBeGreaterThan(0);
    }
  });
});
