/** A timeline as WebVTT: chapters to jump to, and captions that say each time with its start rule (W3C WebVTT). */
import { type FrameRate, labelsPerSecond } from '../overlay/timecode.ts';
import { placeRuns, type RunTimeline, type Timeline } from './timeline.ts';

interface Cue {
  readonly fromFrame: number;
  /** Exclusive; later than `fromFrame`. */
  readonly toFrame: number;
  readonly text: string;
}

/** A caption nobody needs longer than this, s. */
const LONGEST_CAPTION_S = 4;

/** A chapter from each mark to the next; times from the timeline's beginning. */
export function timelineToChapters(timeline: Timeline): string {
  const several = timeline.runs.length > 1;
  const cues = placeRuns(timeline).flatMap(({ run, atFrame }) => {
    const at = (frame: number): number => atFrame + frame - run.fromFrame;
    const named = run.marks.map(mark => ({ from: at(mark.frame), name: mark.name }));
    const chapters = run.fromFrame < 0 ? [{ from: atFrame, name: 'Before the start' }, ...named] : named;
    return chapters.map(
      ({ from, name }, index): Cue => ({
        fromFrame: from,
        toFrame: chapters[index + 1]?.from ?? at(run.toFrame),
        text: several ? `${run.name}: ${name}` : name,
      }),
    );
  });
  return cuesToVtt(cues, timeline.frameRate);
}

/** Captions: what runs and by which clock, then each split as it is reached. */
export function timelineToCaptions(timeline: Timeline): string {
  const cues = placeRuns(timeline).flatMap(({ run, atFrame }) =>
    captionsOf(run, atFrame, timeline.frameRate),
  );
  return cuesToVtt(cues, timeline.frameRate);
}

function captionsOf(run: RunTimeline, atFrame: number, frameRate: FrameRate): readonly Cue[] {
  const at = (frame: number): number => atFrame + frame - run.fromFrame;
  const said = [
    { from: atFrame, text: `${run.title}. ${run.name}, ${run.ruleInWords}.` },
    ...run.marks
      .filter(({ kind }) => kind === 'split')
      .map(({ frame, comment }) => ({ from: at(frame), text: `${comment}.` })),
  ];
  const longest = LONGEST_CAPTION_S * labelsPerSecond(frameRate);
  return said.map(({ from, text }, index) => ({
    fromFrame: from,
    toFrame: Math.min(from + longest, said[index + 1]?.from ?? at(run.toFrame)),
    text,
  }));
}

/** Cues that would last no time are left out: nobody could read them. */
function cuesToVtt(cues: readonly Cue[], frameRate: FrameRate): string {
  const blocks = cues
    .filter(({ fromFrame, toFrame }) => toFrame > fromFrame)
    .map(
      ({ fromFrame, toFrame, text }) =>
        `${timestamp(fromFrame, frameRate)} --> ${timestamp(toFrame, frameRate)}\n${escapeCue(text)}\n`,
    );
  return ['WEBVTT\n', ...blocks].join('\n');
}

/** `hh:mm:ss.ttt`, to the nearest millisecond. */
function timestamp(frame: number, { frames, seconds }: FrameRate): string {
  const milliseconds = Math.round((frame * seconds * 1000) / frames);
  const parts = [
    Math.floor(milliseconds / 3_600_000),
    Math.floor(milliseconds / 60_000) % 60,
    Math.floor(milliseconds / 1000) % 60,
  ].map(part => String(part).padStart(2, '0'));
  return `${parts.join(':')}.${String(milliseconds % 1000).padStart(3, '0')}`;
}

/** Cue text may hold no markup of its own, no line break and no arrow. */
const escapeCue = (text: string): string =>
  text
    .replace(/\s*[\r\n]+\s*/g, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
