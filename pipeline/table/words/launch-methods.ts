/** Launch methods side by side. */
import { catalogue } from '../../language.ts';

export const launchMethodsWords = catalogue({
  en: {
    caption: (label: string, rule: string) =>
      `${label} by launch method, ${rule}: best median first, the others against it`,
    fromRest: 'From rest',
    expectedBest: (of: number) => `Best of ${of}, expected`,
    spread: 'Spread',
    behind: 'Behind',
    between: 'Between',
    byChance: 'By chance alone',
    and: (low: string, high: string) => `${low} and ${high}`,
    none: 'No kept attempt with a launch method began from rest and reached 30 km/h.',
    expectedBestNote: (of: number) =>
      `Best of ${of}, expected: the mean best of every ${of} of the kept attempts. More attempts alone make a best better; this one does not gain by them.`,
    fewNote: (few: number) => `With fewer than ${few} attempts it is a rough guide.`,
  },
  de: {
    caption: (label, rule) =>
      `${label} nach Startmethode, ${rule}: bester Median zuerst, die anderen im Vergleich dazu`,
    fromRest: 'Aus dem Stand',
    expectedBest: of => `Erwarteter Bestwert aus ${of}`,
    spread: 'Spanne',
    behind: 'Rückstand',
    between: 'Zwischen',
    byChance: 'Durch bloßen Zufall',
    and: (low, high) => `${low} und ${high}`,
    none: 'Kein gewerteter Versuch mit einer Startmethode begann aus dem Stand und erreichte 30 km/h.',
    expectedBestNote: of =>
      `Erwarteter Bestwert aus ${of}: der mittlere Bestwert aus je ${of} der gewerteten Versuche. Schon mehr Versuche allein verbessern einen Bestwert; dieser gewinnt dadurch nicht.`,
    fewNote: few => `Bei weniger als ${few} Versuchen ist er nur ein Anhalt.`,
  },
});
