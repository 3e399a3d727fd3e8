/** What several content files are made of: short names, words, prose, dates. A description says how to write it. */
import { z } from 'zod';

export { START_RULES } from '../run/run.ts';

const SHORT = 300;
const LONG = 2000;
export const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(60)
  .meta({ description: 'lower-case letters, digits and single hyphens, such as full-throttle' });
export const words = z.string().trim().min(1).max(SHORT);
export const prose = z.string().trim().min(1).max(LONG);
export const isoDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .meta({ description: 'year-month-day, in quotes: "2026-05-12"' });
