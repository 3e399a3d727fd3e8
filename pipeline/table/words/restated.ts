/** Standing starts as measured and restated. */
import type { Condition } from '../../conditions/gain.ts';
import { catalogue, counted } from '../../language.ts';

export const restatedWords = catalogue({
  en: {
    /** What the figures are restated for. */
    reference: (temperature: string, pressure: string) =>
      `level road, still dry air at ${temperature} and ${pressure}`,
    caption: (label: string, reference: string, rule: string) =>
      `${label} as measured and restated for a ${reference}; ${rule}`,
    starts: 'Starts',
    measured: 'Measured',
    restated: 'Restated',
    restatedUncertainty: 'Uncertainty, restated',
    by: { slope: 'By slope', wind: 'By wind', air: 'By air' } satisfies Record<Condition, string>,
    notRestated: (attempts: readonly number[], reason: string) =>
      `Not restated: attempt ${attempts.join(', ')}: ${reason}.`,
    none: 'No start of this test is restated.',
    measuredNote:
      'The measured figures are the published ones; the restated stand beside them and replace none. The last columns are restated less measured, by condition, and add up to the whole.',
    ownNote:
      'These are measured and restated figures of your own choices, not the published ones; the restated stand beside the measured and replace none. The last columns are restated less measured, by condition, and add up to the whole.',
    uncertaintyNote:
      'Uncertainty: expanded, k = 2 (about 95 %); of the restated, with what is not known of mass, drag, wind, slope and air.',
    byCoasting:
      'Drag area and rolling resistance are those found by coasting on the day, not the stated ones.',
  },
  de: {
    reference: (temperature, pressure) =>
      `ebene Straße und ruhende, trockene Luft von ${temperature} und ${pressure}`,
    caption: (label, reference, rule) => `${label} wie gemessen und umgerechnet auf ${reference}; ${rule}`,
    starts: 'Starts',
    measured: 'Gemessen',
    restated: 'Umgerechnet',
    restatedUncertainty: 'Unsicherheit, umgerechnet',
    by: { slope: 'Durch Neigung', wind: 'Durch Wind', air: 'Durch Luft' },
    notRestated: (attempts, reason) =>
      `Nicht umgerechnet: ${counted(attempts.length, 'Versuch', 'Versuche')} ${attempts.join(', ')}: ${reason}.`,
    none: 'Kein Start dieses Tests ist umgerechnet.',
    measuredNote:
      'Veröffentlicht werden die gemessenen Werte; die umgerechneten stehen daneben und ersetzen keinen. Die letzten Spalten nennen umgerechnet minus gemessen, nach Bedingung, und ergeben zusammen das Ganze.',
    ownNote:
      'Dies sind gemessene und umgerechnete Werte nach Ihrer eigenen Wahl, nicht die veröffentlichten; die umgerechneten stehen neben den gemessenen und ersetzen keinen. Die letzten Spalten nennen umgerechnet minus gemessen, nach Bedingung, und ergeben zusammen das Ganze.',
    uncertaintyNote:
      'Unsicherheit: erweitert, k = 2 (rund 95 %); bei den umgerechneten mit dem, was an Masse, Luftwiderstand, Wind, Neigung und Luft nicht genau bekannt ist.',
    byCoasting:
      'Luftwiderstandsfläche und Rollwiderstand sind die durch Ausrollen am Versuchstag gefundenen, nicht die angegebenen.',
  },
});
