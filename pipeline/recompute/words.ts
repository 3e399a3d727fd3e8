/** What is said around a test worked out anew. */
import { catalogue } from '../language.ts';

/** Words of the reader's own reckoning. */
export const recomputeWords = catalogue({
  en: {
    keyCaption: (rule: string) =>
      `Key figures from the attempts you count, ± expanded uncertainty (k = 2); figures from rest with the ${rule}. Restated figures are those of the same attempt on a level road in still reference air.`,
    figure: 'Figure',
    best: 'Best, measured',
    restated: 'The same, restated',
    median: 'Median, measured',
    n: 'n',
    none: 'none',
    allCaption: 'Every figure of every attempt, SI, unrounded; uncertainties are expanded (k = 2).',
    attempt: 'Attempt',
    rule: 'Start rule',
    value: 'Value',
    uncertainty: 'Uncertainty',
    unit: 'Unit',
    restatedUncertainty: 'Restated, uncertainty',
    restatedPlain: 'Restated',
    plotTitle: (count: number) => `Speed over time of the ${count} standing starts you count`,
    plotOne: 'Speed over time of the one standing start you count',
    plotBest: (attempt: number) => `The best, attempt ${attempt}, is drawn heavier.`,
    time: (rule: string) => `Time, s, ${rule}`,
    speed: (unit: string) => `Speed, ${unit}`,
    attemptLabel: (number: number) => `Attempt ${number}`,
  },
  de: {
    keyCaption: rule =>
      `Die wichtigsten Werte der Versuche, die Sie werten, ± erweiterte Unsicherheit (k = 2); Werte aus dem Stand: ${rule}. Umgerechnete Werte sind die desselben Versuchs auf ebener Straße in ruhiger Bezugsluft.`,
    figure: 'Wert',
    best: 'Bester, gemessen',
    restated: 'Derselbe, umgerechnet',
    median: 'Median, gemessen',
    n: 'n',
    none: 'keiner',
    allCaption: 'Jeder Wert jedes Versuchs, SI, ungerundet; Unsicherheiten sind erweitert (k = 2).',
    attempt: 'Versuch',
    rule: 'Startregel',
    value: 'Wert',
    uncertainty: 'Unsicherheit',
    unit: 'Einheit',
    restatedUncertainty: 'Umgerechnet, Unsicherheit',
    restatedPlain: 'Umgerechnet',
    plotTitle: count => `Geschwindigkeit über der Zeit der ${count} Starts, die Sie werten`,
    plotOne: 'Geschwindigkeit über der Zeit des einen Starts, den Sie werten',
    plotBest: attempt => `Der beste, Versuch ${attempt}, ist kräftiger gezeichnet.`,
    time: rule => `Zeit, s, ${rule}`,
    speed: unit => `Geschwindigkeit, ${unit}`,
    attemptLabel: number => `Versuch ${number}`,
  },
});
