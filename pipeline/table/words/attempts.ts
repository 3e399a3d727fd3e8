/** Every attempt of the day. */
import { catalogue } from '../../language.ts';

export const attemptsWords = catalogue({
  en: {
    caption: (kept: number, aside: number, rule: string) =>
      `Every attempt of the day: ${kept} kept, ${aside} set aside; from rest, ${rule}`,
    number: 'No.',
    value: 'Value',
    keptOrNot: 'Kept or set aside',
    flags: 'Flags',
    kept: 'kept',
    setAside: (reason: string) => `set aside: ${reason}`,
    uncertaintyNote: 'Uncertainty: expanded, k = 2 (about 95 %), of each attempt’s own measurement.',
  },
  de: {
    caption: (kept, aside, rule) =>
      `Alle Versuche des Tages: ${kept} gewertet, ${aside} nicht gewertet; aus dem Stand ${rule}`,
    number: 'Nr.',
    value: 'Wert',
    keptOrNot: 'Wertung',
    flags: 'Kennzeichen',
    kept: 'gewertet',
    setAside: reason => `nicht gewertet: ${reason}`,
    uncertaintyNote: 'Unsicherheit: erweitert, k = 2 (rund 95 %), der Messung des jeweiligen Versuchs.',
  },
});
