/**
 * A timeline as OpenTimelineIO JSON (`.otio`), by the project's serialized-schema document: Timeline.1, Stack.1,
 * Track.1, Clip.2, Marker.2, TimeRange.1, RationalTime.1, ImageSequenceReference.1.
 *
 * Track 1 holds the pictures, a clip a run, with the marks; track 2 the plates, where they were drawn.
 */
import { type FrameRate, labelsPerSecond } from '../overlay/timecode.ts';
import {
  type PlateSequence,
  placeRuns,
  programmeBegins,
  type RunTimeline,
  type Timeline,
  type TimelineMark,
} from './timeline.ts';

/** Colours by their names in the schema, one for each kind of mark. */
const MARK_COLOUR: Readonly<Record<TimelineMark['kind'], string>> = {
  movement: 'GREEN',
  clock: 'CYAN',
  split: 'YELLOW',
  stop: 'RED',
};

/** The complete file. */
export function timelineToOtio(timeline: Timeline): string {
  const { frameRate, runs } = timeline;
  const tracks = [
    track(
      'Picture',
      runs.map(run => pictureClip(run, frameRate)),
    ),
  ];
  if (runs.some(({ plates }) => plates !== undefined)) {
    tracks.push(track('Plates', plateItems(timeline)));
  }
  const file = {
    OTIO_SCHEMA: 'Timeline.1',
    metadata: {
      evenground: {
        frame_rate: `${frameRate.frames}/${frameRate.seconds}`,
        counting: timeline.counting,
      },
    },
    name: timeline.name,
    global_start_time: time(programmeBegins(timeline), frameRate),
    tracks: {
      OTIO_SCHEMA: 'Stack.1',
      metadata: {},
      name: 'tracks',
      source_range: null,
      effects: [],
      markers: [],
      enabled: true,
      children: tracks,
    },
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

const track = (name: string, children: readonly object[]): object => ({
  OTIO_SCHEMA: 'Track.1',
  metadata: {},
  name,
  source_range: null,
  effects: [],
  markers: [],
  enabled: true,
  children,
  kind: 'Video',
});

/** `rate` is frames per second as a double: the schema knows no ratio. */
const time = (value: number, { frames, seconds }: FrameRate): object => ({
  OTIO_SCHEMA: 'RationalTime.1',
  rate: frames / seconds,
  value,
});

const range = (start: number, duration: number, frameRate: FrameRate): object => ({
  OTIO_SCHEMA: 'TimeRange.1',
  duration: time(duration, frameRate),
  start_time: time(start, frameRate),
});

const clip = (
  name: string,
  source_range: object,
  media: object,
  markers: readonly object[],
  metadata: object,
): object => ({
  OTIO_SCHEMA: 'Clip.2',
  metadata,
  name,
  source_range,
  effects: [],
  markers,
  enabled: true,
  media_references: { DEFAULT_MEDIA: media },
  active_media_reference_key: 'DEFAULT_MEDIA',
});

function pictureClip(run: RunTimeline, frameRate: FrameRate): object {
  const media =
    run.clip === undefined
      ? { OTIO_SCHEMA: 'MissingReference.1', metadata: {}, name: run.reel, available_range: null }
      : {
          OTIO_SCHEMA: 'ExternalReference.1',
          metadata: {},
          name: run.reel,
          available_range: null,
          target_url: encodeURI(run.clip),
        };
  const markers = run.marks.map(mark => ({
    OTIO_SCHEMA: 'Marker.2',
    metadata: { evenground: { kind: mark.kind } },
    name: mark.name,
    color: MARK_COLOUR[mark.kind],
    // In the clip's own time, as its source range.
    marked_range: range(run.movesAtFrame + mark.frame, 1, frameRate),
    comment: mark.comment,
  }));
  return clip(
    `${run.title}, ${run.name}`,
    range(run.movesAtFrame + run.fromFrame, run.toFrame - run.fromFrame, frameRate),
    media,
    markers,
    { evenground: { start_rule: run.ruleInWords } },
  );
}

/** Plates over their runs, with gaps where a run has none or they are shorter. */
function plateItems(timeline: Timeline): readonly object[] {
  const { frameRate } = timeline;
  const items: object[] = [];
  let at = 0;
  for (const { run, atFrame } of placeRuns(timeline)) {
    if (run.plates === undefined) continue;
    const begins = atFrame + run.plates.firstFrame - run.movesAtFrame - run.fromFrame;
    if (begins > at) items.push(gap(begins - at, frameRate));
    const frames = run.plates.lastFrame - run.plates.firstFrame + 1;
    items.push(plateClip(run.plates, frames, frameRate));
    at = begins + frames;
  }
  return items;
}

const gap = (duration: number, frameRate: FrameRate): object => ({
  OTIO_SCHEMA: 'Gap.1',
  metadata: {},
  name: '',
  source_range: range(0, duration, frameRate),
  effects: [],
  markers: [],
  enabled: true,
});

function plateClip(plates: PlateSequence, frames: number, frameRate: FrameRate): object {
  const all = range(plates.firstFrame, frames, frameRate);
  return clip(
    plates.name,
    all,
    {
      OTIO_SCHEMA: 'ImageSequenceReference.1',
      metadata: { evenground: { alpha: 'straight', labels_per_second: labelsPerSecond(frameRate) } },
      name: plates.name,
      available_range: all,
      target_url_base: plates.folder,
      name_prefix: plates.namePrefix,
      name_suffix: plates.nameSuffix,
      start_frame: plates.firstFrame,
      frame_step: 1,
      rate: frameRate.frames / frameRate.seconds,
      frame_zero_padding: plates.digits,
      missing_frame_policy: 'error',
    },
    [],
    {},
  );
}
