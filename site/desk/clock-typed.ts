/** Clock times as hands type them in a hurry. */
import { clockTextToS } from '../../pipeline/content/calendar.ts';

/** A clock time as it is saved, from what hands type in a hurry: `9:05`, `905`, `10.22.40`, `102240`. */
export function clockTyped(text: string): string | undefined {
  const digits = /^(\d{1,2})[:.h ]?(\d{2})(?:[:. ]?(\d{2}))?$/.exec(text.trim());
  if (!digits) return undefined;
  const [, hours, minutes, seconds] = digits;
  const clock = `${hours!.padStart(2, '0')}:${minutes}${seconds === undefined ? '' : `:${seconds}`}`;
  return clockTextToS(clock) === undefined ? undefined : clock;
}
