/** Words of the part of a test's page where a reader works it out anew. */
import { catalogue } from '../../pipeline/language.ts';

export const ownWords = catalogue({
  en: {
    heading: 'Work it out yourself',
    open: 'Choose the start rule, the unit and the attempts that count',
    needsScript:
      'This part works in your browser and needs its scripts switched on. The page is complete without it.',
    loading: 'The readings are being fetched …',
    failed: 'The readings could not be fetched. Close this part and open it again to try once more.',
    about:
      'Your browser works the numbers out anew from the published readings, with the same rules that made this page. Nothing is sent anywhere.',
    startRule: 'Start rule',
    speedUnit: 'Speeds in',
    restated: 'Show restated figures beside the measured ones',
    attempts: 'Attempts that count',
    back: 'Back to the publication’s choices',
    asPublished: 'These are the publication’s own choices: the numbers are those of this page.',
    own: 'These are your own choices, not the publication’s numbers.',
    lead: (label: string, best: string, median: string, n: number, rule: string) =>
      `${label}: best ${best}, median ${median}, n = ${n}; ${rule}.`,
    noFigure: 'No attempt that you count came to a figure.',
    keyFigures: 'Key figures, your choices',
    restatedTable: 'Measured and restated, your choices',
    unrounded: 'Every figure, unrounded',
    readings: 'The readings, as JSON',
    attempt: (number: number, at: string) => `${number}, ${at}`,
    setAside: (reason: string) => `set aside: ${reason}`,
  },
  de: {
    heading: 'Selbst nachrechnen',
    open: 'Startregel, Einheit und gewertete Versuche wählen',
    needsScript:
      'Dieser Teil rechnet in Ihrem Browser und braucht dessen Skripte. Die Seite ist auch ohne ihn vollständig.',
    loading: 'Die Messwerte werden geholt …',
    failed:
      'Die Messwerte ließen sich nicht holen. Schließen und öffnen Sie diesen Teil, um es noch einmal zu versuchen.',
    about:
      'Ihr Browser rechnet die Zahlen aus den veröffentlichten Messwerten neu aus, nach denselben Regeln wie diese Seite. Nichts wird irgendwohin gesendet.',
    startRule: 'Startregel',
    speedUnit: 'Geschwindigkeiten in',
    restated: 'Umgerechnete Werte neben den gemessenen zeigen',
    attempts: 'Versuche, die zählen',
    back: 'Zurück zur Wahl der Redaktion',
    asPublished: 'Dies ist die Wahl der Redaktion: Die Zahlen sind die dieser Seite.',
    own: 'Dies ist Ihre eigene Wahl; es sind nicht die veröffentlichten Zahlen.',
    lead: (label, best, median, n, rule) => `${label}: bester ${best}, Median ${median}, n = ${n}; ${rule}.`,
    noFigure: 'Kein Versuch, den Sie werten, ergab einen Wert.',
    keyFigures: 'Die wichtigsten Werte nach Ihrer Wahl',
    restatedTable: 'Gemessen und umgerechnet nach Ihrer Wahl',
    unrounded: 'Jeder Wert, ungerundet',
    readings: 'Die Messwerte als JSON',
    attempt: (number, at) => `${number}, ${at}`,
    setAside: reason => `nicht gewertet: ${reason}`,
  },
});
