/** Where the workings of a published number stand: one page an attempt, one place a figure and start rule. */
import type { StartRule } from '../run/run.ts';
import { MEASURES } from './measures.ts';
import type { MeasureId, Result } from './result.ts';

/** Address of an attempt's workings from the site's root. */
export const workingsPage = (testId: string, attemptId: string): string =>
  `/tests/${testId}/workings/${attemptId}/`;

/** Id of a figure's place on that page: `0-100-kmh-first-movement`, `top-speed`. */
export const workingsAnchor = (measure: MeasureId, startRule?: StartRule): string =>
  MEASURES[measure].fromRest ? `${measure}-${startRule ?? 'first-movement'}` : measure;

/** Address of a figure's workings from the site's root; the start rule counts for figures from rest only. */
export const workingsAddress = (
  testId: string,
  attemptId: string,
  measure: MeasureId,
  startRule?: StartRule,
): string => `${workingsPage(testId, attemptId)}#${workingsAnchor(measure, startRule)}`;

/** Addresses of what a published number comes from: one attempt, or the two middle ones of a median of an even number. */
export const workingsOfResult = (
  testId: string,
  { attemptIds, measure, startRule }: Pick<Result, 'attemptIds' | 'measure' | 'startRule'>,
): readonly { readonly attemptId: string; readonly address: string }[] =>
  attemptIds.map(attemptId => ({
    attemptId,
    address: workingsAddress(testId, attemptId, measure, startRule),
  }));
