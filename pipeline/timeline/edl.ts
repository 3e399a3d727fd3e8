/**
 * A timeline as a CMX 3600 edit decision list: title, frame code mode, then an event a run, cut after cut, with
 * source and record timecode, out points exclusive. Comment lines begin with an asterisk; editing programs read
 * the clip's name and locators from them (common practice, no source). ASCII throughout.
 */
import { frameToTimecode } from '../overlay/timecode.ts';
import { placeRuns, programmeBegins, type Timeline, type TimelineMark } from './timeline.ts';

const LOCATOR_COLOUR: Readonly<Record<TimelineMark['kind'], string>> = {
  movement: 'GREEN',
  clock: 'CYAN',
  split: 'YELLOW',
  stop: 'RED',
};
const LONGEST_TITLE = 70;
const MOST_EVENTS = 999;

/** The complete file. @throws RangeError where a run passes the end of a day of timecode, or beyond 999 events. */
export function timelineToEdl(timeline: Timeline): string {
  const { frameRate, counting, runs } = timeline;
  if (runs.length > MOST_EVENTS) throw new RangeError(`An edit decision list holds ${MOST_EVENTS} events`);
  const label = (frame: number): string => frameToTimecode(frame, frameRate, counting);
  const begins = programmeBegins(timeline);
  const lines = [
    `TITLE: ${ascii(timeline.name).toUpperCase().slice(0, LONGEST_TITLE)}`,
    `FCM: ${counting === 'drop-frame' ? 'DROP FRAME' : 'NON-DROP FRAME'}`,
    '',
  ];
  for (const [index, { run, atFrame }] of placeRuns(timeline).entries()) {
    const length = run.toFrame - run.fromFrame;
    const sourceIn = run.movesAtFrame + run.fromFrame;
    const recordIn = begins + atFrame;
    const times = [sourceIn, sourceIn + length, recordIn, recordIn + length].map(label).join(' ');
    lines.push(
      `${String(index + 1).padStart(3, '0')}  ${run.reel.padEnd(8)} V     C        ${times}`,
      `* FROM CLIP NAME: ${ascii(run.clip ?? `${run.title}, ${run.name}`)}`,
      ...run.marks.map(
        mark =>
          `* LOC: ${label(recordIn + mark.frame - run.fromFrame)} ${LOCATOR_COLOUR[mark.kind].padEnd(7)} ${ascii(mark.comment)}`,
      ),
      '',
    );
  }
  return `${lines.join('\r\n').trimEnd()}\r\n`;
}

/** Dashes, signs and letters as ASCII has them; what it has not at all as a question mark. */
export function ascii(text: string): string {
  return text
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replaceAll('±', '+/-')
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .replace(/[\s\p{Zs}]+/gu, ' ')
    .replace(/[^\x20-\x7e]/g, '?')
    .trim();
}
