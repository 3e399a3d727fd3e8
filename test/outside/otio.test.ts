/**
 * OpenTimelineIO files against the project's own list of what each class serialises
 * (AcademySoftwareFoundation/OpenTimelineIO, docs/tutorials/otio-serialized-schema.md): every object names a known
 * schema, has all of its parameters and no other. `enabled` of items, Clip.2's references and Marker.2's `comment`
 * are from the file-format page (opentimelineio.readthedocs.io). The reference library is not among Debian's
 * packages, so the files were not opened in it.
 */
import { describe, expect, it } from 'vitest';
import { frameToSeconds } from '../../pipeline/overlay/timecode.ts';
import { timelineToOtio } from '../../pipeline/timeline/otio.ts';
import { placeRuns, type Timeline } from '../../pipeline/timeline/timeline.ts';
import { AWKWARD, COUNTINGS, clipTimeline, dayTimeline } from '../timeline/fixture.ts';

type Json = Record<string, unknown>;

const ITEM = ['effects', 'markers', 'metadata', 'name', 'source_range', 'enabled'];
const MEDIA = ['available_range', 'metadata', 'name'];
const PARAMETERS: Readonly<Record<string, readonly string[]>> = {
  'Timeline.1': ['global_start_time', 'metadata', 'name', 'tracks'],
  'Stack.1': [...ITEM, 'children'],
  'Track.1': [...ITEM, 'children', 'kind'],
  'Clip.2': [...ITEM, 'media_references', 'active_media_reference_key'],
  'Gap.1': ITEM,
  'Marker.2': ['color', 'marked_range', 'metadata', 'name', 'comment'],
  'ExternalReference.1': [...MEDIA, 'target_url'],
  'MissingReference.1': MEDIA,
  'ImageSequenceReference.1': [
    ...MEDIA,
    'target_url_base',
    'name_prefix',
    'name_suffix',
    'start_frame',
    'frame_step',
    'rate',
    'frame_zero_padding',
    'missing_frame_policy',
  ],
  'TimeRange.1': ['duration', 'start_time'],
  'RationalTime.1': ['rate', 'value'],
};
const COLOURS = [
  'PINK',
  'RED',
  'ORANGE',
  'YELLOW',
  'GREEN',
  'CYAN',
  'BLUE',
  'PURPLE',
  'MAGENTA',
  'BLACK',
  'WHITE',
];

/** Every object with a schema, anywhere but in metadata, which is free. */
function schemaObjects(value: unknown): readonly Json[] {
  if (Array.isArray(value)) return value.flatMap(schemaObjects);
  if (typeof value !== 'object' || value === null) return [];
  const own = 'OTIO_SCHEMA' in value ? [value as Json] : [];
  return [
    ...own,
    ...Object.entries(value).flatMap(([key, each]) => (key === 'metadata' ? [] : schemaObjects(each))),
  ];
}

const read = (timeline: Timeline): Json => JSON.parse(timelineToOtio(timeline)) as Json;
const ofKind = (file: Json, schema: string): readonly Json[] =>
  schemaObjects(file).filter(({ OTIO_SCHEMA }) => OTIO_SCHEMA === schema);
const timeValue = (time: unknown): number => Number((time as Json).value);
const startOf = (range: unknown): number => timeValue((range as Json).start_time);
const lengthOf = (range: unknown): number => timeValue((range as Json).duration);

describe('OpenTimelineIO files', () => {
  it.each(COUNTINGS)(
    'at %s, %s, have the parameters of their schemas, all and no other',
    (rate, counting) => {
      for (const timeline of [
        clipTimeline(rate, counting),
        dayTimeline(rate, counting),
        dayTimeline(rate, counting, AWKWARD),
      ]) {
        const file = read(timeline);
        expect(file.OTIO_SCHEMA).toBe('Timeline.1');
        for (const object of schemaObjects(file)) {
          const schema = String(object.OTIO_SCHEMA);
          const wanted = PARAMETERS[schema];
          if (wanted === undefined) expect.fail(`${schema} is no schema of the list`);
          expect(Object.keys(object).sort(), schema).toEqual(['OTIO_SCHEMA', ...wanted].sort());
        }
        for (const time of ofKind(file, 'RationalTime.1')) {
          expect(time.rate).toBe(timeline.frameRate.frames / timeline.frameRate.seconds);
          expect(Number.isInteger(time.value)).toBe(true);
        }
        for (const { color } of ofKind(file, 'Marker.2')) expect(COLOURS).toContain(color);
        for (const { kind } of ofKind(file, 'Track.1')) expect(kind).toBe('Video');
      }
    },
  );

  it('hold each run as a clip with its marks inside it, at the frames measured', () => {
    for (const [rate, counting] of COUNTINGS) {
      const timeline = dayTimeline(rate, counting);
      const clips = ofKind(read(timeline), 'Clip.2');
      expect(clips).toHaveLength(timeline.runs.length);
      for (const [index, clip] of clips.entries()) {
        const { run } = placeRuns(timeline)[index]!;
        const start = startOf(clip.source_range);
        const end = start + lengthOf(clip.source_range);
        expect(lengthOf(clip.source_range)).toBe(run.toFrame - run.fromFrame);
        const marks = (clip.markers as Json[]).map(({ marked_range }) => startOf(marked_range));
        expect(marks).toEqual(run.marks.map(({ frame }) => run.movesAtFrame + frame));
        for (const mark of marks) {
          expect(mark).toBeGreaterThanOrEqual(start);
          expect(mark).toBeLessThan(end);
        }
      }
    }
  });

  it('lay the plates over the clip, frame on frame', () => {
    const timeline = clipTimeline('29.97', 'drop-frame');
    const file = read(timeline);
    const [picture, plates] = (file.tracks as Json).children as Json[];
    const [clip] = picture!.children as Json[];
    const [plate] = plates!.children as Json[];
    // Both begin together, so that the same frame of both stands at the same place.
    expect(startOf(plate!.source_range)).toBe(startOf(clip!.source_range));
    const media = (plate!.media_references as Json).DEFAULT_MEDIA as Json;
    expect(media).toMatchObject({
      OTIO_SCHEMA: 'ImageSequenceReference.1',
      start_frame: startOf(plate!.source_range),
      frame_zero_padding: 8,
      missing_frame_policy: 'error',
    });
    expect(lengthOf(media.available_range)).toBe(lengthOf(plate!.source_range));
    expect(((clip!.media_references as Json).DEFAULT_MEDIA as Json).target_url).toBe(
      'card%201/C0042%20%C3%BCber.MP4',
    );
  });

  it('put plates that begin later than their clip behind a gap', () => {
    const timeline = clipTimeline('25', 'non-drop');
    const run = timeline.runs[0]!;
    const early = { ...timeline, runs: [{ ...run, fromFrame: run.fromFrame - 40 }, run] };
    const [, plates] = (read(early).tracks as Json).children as Json[];
    const items = plates!.children as Json[];
    let at = 0;
    const begins: number[] = [];
    for (const item of items) {
      if (item.OTIO_SCHEMA === 'Clip.2') begins.push(at);
      at += lengthOf(item.source_range);
    }
    const second = placeRuns(early)[1]!.atFrame;
    expect(begins).toEqual([40, second]);
  });

  it('begin at the label of one hour', () => {
    for (const [rate, counting] of COUNTINGS) {
      const timeline = dayTimeline(rate, counting);
      const begins = frameToSeconds(timeValue(read(timeline).global_start_time), timeline.frameRate);
      const expected = timeline.frameRate.seconds === 1 ? 3600 : counting === 'non-drop' ? 3603.6 : 3599.9964;
      expect(begins).toBeCloseTo(expected, 6);
    }
  });
});
