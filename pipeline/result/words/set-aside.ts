/** Why an attempt does not count. A reason that a person wrote stays as it is; those of this program are translated. */
import { catalogue, type Spoken } from '../../language.ts';

/** Reason of a run that no note tells of. */
export const NOT_IN_NOTES = "not in the tester's notes";
/** Reason of a run that was broken off where its note gives none. */
export const ABORTED = 'aborted';

const words = catalogue({
  en: { notInNotes: NOT_IN_NOTES as string, aborted: ABORTED as string },
  de: { notInNotes: 'nicht in den Aufzeichnungen', aborted: 'abgebrochen' },
});

/** The reason as readers see it. */
export function reasonInWords(reason: string, spoken: Spoken): string {
  if (reason === NOT_IN_NOTES) return words(spoken).notInNotes;
  return reason === ABORTED ? words(spoken).aborted : reason;
}
