/** What stands on the data sheet of a test besides its figures. */
import { catalogue } from '../language.ts';
import type { StartRule } from '../run/run.ts';

export const dataSheetWords = catalogue({
  en: {
    sheet: 'Data sheet',
    of: (title: string, road: string, date: string) => `Data sheet of “${title}”. ${road}, ${date}`,
    keyFigures: 'Key figures',
    best: 'Best',
    median: 'Median',
    kept: 'Kept',
    medianOf: (median: string, n: number) => `${median} of ${n}`,
    fromRest: 'From rest, best kept attempt of each',
    clock: {
      'first-movement': 'From first movement',
      'one-foot-rollout': 'After one foot',
    } satisfies Record<StartRule, string>,
    moving: 'Rolling and stopping, best kept attempt of each',
    asTested: 'The car as tested',
    conditions: 'Conditions',
    conditionsOf: (said: string, kept: number, aside: number) =>
      `${said}. ${kept} ${kept === 1 ? 'attempt' : 'attempts'} kept${aside === 0 ? '' : `, ${aside} set aside`}.`,
    notNoted: 'Not noted',
    method: (headline: string, address: string) =>
      `Speed is the recorded Doppler speed and distance its integral; headline figures are timed ${headline}. First movement is estimated from the rise of the speed, not from a threshold; the one-foot rollout is the instant after 0.3048 m. ± is the expanded uncertainty of one figure, k = 2, after JCGM 100; results whose difference is smaller than its uncertainty are too close to call. Rules, constants and their sources: ${address}`,
    caution: 'Caution.',
    workings: (address: string) => `Workings of every number, restated figures and open data: ${address}`,
    licence: (house: string, licence: string) => `${house}. ${licence}`,
    shortened: (left: number) => `${left} more in the tables of the press folder.`,
    describes:
      'One A4 page to print: the car, key figures with both start rules, splits, conditions, a figure and the cautions (PDF)',
  },
  de: {
    sheet: 'Datenblatt',
    of: (title, road, date) => `Datenblatt zu „${title}“. ${road}, ${date}`,
    keyFigures: 'Hauptwerte',
    best: 'Bestwert',
    median: 'Median',
    kept: 'Gewertet',
    medianOf: (median, n) => `${median} aus ${n}`,
    fromRest: 'Aus dem Stand, jeweils bester gewerteter Versuch',
    clock: {
      'first-movement': 'Ab der ersten Bewegung',
      'one-foot-rollout': 'Nach einem Fuß',
    },
    moving: 'Rollend und bremsend, jeweils bester gewerteter Versuch',
    asTested: 'Das Auto im Test',
    conditions: 'Bedingungen',
    conditionsOf: (said, kept, aside) =>
      `${said}. ${kept} ${kept === 1 ? 'Versuch' : 'Versuche'} gewertet${aside === 0 ? '' : `, ${aside} nicht gewertet`}.`,
    notNoted: 'Nicht notiert',
    method: (headline, address) =>
      `Geschwindigkeit ist die aufgezeichnete Doppler-Geschwindigkeit, Weg ihr Integral; die Hauptwerte zählen ${headline}. Die erste Bewegung wird aus dem Anstieg der Geschwindigkeit geschätzt, nicht aus einer Schwelle; der Anrollweg von einem Fuß endet nach 0,3048 m. ± ist die erweiterte Unsicherheit eines Werts, k = 2, nach JCGM 100; Ergebnisse, deren Unterschied kleiner ist als seine Unsicherheit, sind zu eng für eine Rangfolge. Regeln, Konstanten und ihre Quellen: ${address}`,
    caution: 'Vorsicht.',
    workings: address => `Rechenweg jeder Zahl, umgerechnete Werte und offene Daten: ${address}`,
    licence: (house, licence) => `${house}. ${licence}`,
    shortened: left => `${left} weitere in den Tabellen des Presseordners.`,
    describes:
      'Eine Seite A4 zum Drucken: das Auto, Hauptwerte nach beiden Startregeln, Zwischenzeiten, Bedingungen, eine Abbildung und die Warnhinweise (PDF)',
  },
});
