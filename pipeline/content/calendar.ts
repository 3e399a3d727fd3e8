/** Clock times, dates and zones as people write them, turned into numbers. */

export const DAY_S = 86_400;

/** Seconds since midnight of "10:22" or "10:22:40.5"; undefined for anything else. */
export function clockTextToS(text: string): number | undefined {
  const parts = /^(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?$/.exec(text);
  if (!parts) return undefined;
  const [hours, minutes, seconds] = [Number(parts[1]), Number(parts[2]), Number(parts[3] ?? 0)];
  if (hours > 23 || minutes > 59 || seconds >= 60) return undefined;
  return hours * 3600 + minutes * 60 + seconds;
}

/** "10:22:41" from seconds since midnight of the test's day; whole seconds, never rounded up past the instant. */
export function sToClockText(dayS: number): string {
  const whole = Math.floor(((dayS % DAY_S) + DAY_S) % DAY_S);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** Seconds a zone such as "+01:00" is ahead of UTC. */
export function zoneTextToS(text: string): number | undefined {
  const parts = /^([+-])(\d{2}):(\d{2})$/.exec(text);
  if (!parts) return undefined;
  return (parts[1] === '-' ? -1 : 1) * (Number(parts[2]) * 3600 + Number(parts[3]) * 60);
}

/** Milliseconds from 1970-01-01 to midnight of "2026-05-12" read as UTC; undefined where no such day exists. */
export function dateTextToMs(text: string): number | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return undefined;
  const ms = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]));
  return new Date(ms).toISOString().startsWith(text) ? ms : undefined;
}

/** The date of an instant, read in UTC: "2026-05-12". */
export function msToDateText(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/**
 * Clock times in the order they were written, as seconds since midnight of the first one's day.
 * A step back of more than twelve hours is midnight; a smaller one is a slip and stays one.
 */
export function clockOrderToDayS(clockS: readonly number[]): number[] {
  let days = 0;
  return clockS.map((s, i) => {
    if (i > 0 && clockS[i - 1]! - s > DAY_S / 2) days++;
    return s + days * DAY_S;
  });
}
