/** Times, distances and speeds from rest, and figures on the move. */
import { catalogue } from '../../language.ts';
import type { StartRule } from '../../run/run.ts';

const FROM = {
  'first-movement': 'first movement',
  'one-foot-rollout': 'one foot',
} as const satisfies Record<StartRule, string>;
const AB = {
  'first-movement': 'ab der ersten Bewegung',
  'one-foot-rollout': 'nach einem Fuß',
} as const satisfies Record<StartRule, string>;

export const splitsWords = catalogue({
  en: {
    caption: (car: string) =>
      `${car} from rest: best and median, clock from first movement and after the one-foot rollout`,
    fromRest: 'From rest',
    best: (rule: StartRule) => `Best, from ${FROM[rule]}`,
    uncertainty: (rule: StartRule) => `Uncertainty, from ${FROM[rule]}`,
    median: (rule: StartRule) => `Median, from ${FROM[rule]}`,
    none: 'No kept attempt began from rest and reached a figure.',
    uncertaintyNote:
      'Uncertainty: expanded, k = 2 (about 95 %), of the best attempt’s own timing. More attempts alone make a best better; the median does not gain by them.',
    oneFootNote: (rollout: string) =>
      `One foot: clock and tape start where the car has covered ${rollout} m.`,
    movingCaption: (car: string) => `${car} on the move: best and median; no start rule applies`,
    movingNone: 'No kept attempt reached a figure of this kind.',
    movingNote:
      'Uncertainty: expanded, k = 2 (about 95 %), of the best attempt’s own measurement. Stops: no reaction time.',
  },
  de: {
    caption: car =>
      `${car} aus dem Stand: Bestwert und Median, gemessen ab der ersten Bewegung und nach einem Fuß Anrollweg`,
    fromRest: 'Aus dem Stand',
    best: rule => `Bestwert, ${AB[rule]}`,
    uncertainty: rule => `Unsicherheit, ${AB[rule]}`,
    median: rule => `Median, ${AB[rule]}`,
    none: 'Kein gewerteter Versuch aus dem Stand hat eine der Messgrößen erreicht.',
    uncertaintyNote:
      'Unsicherheit: erweitert, k = 2 (rund 95 %), der Zeitnahme des besten Versuchs. Schon mehr Versuche allein verbessern einen Bestwert; der Median gewinnt dadurch nicht.',
    oneFootNote: rollout =>
      `Ein Fuß: Zeit und Weg zählen von dort an, wo das Auto ${rollout} m zurückgelegt hat.`,
    movingCaption: car => `${car} in Fahrt: Bestwert und Median; unabhängig von der Startregel`,
    movingNone: 'Kein gewerteter Versuch hat eine dieser Messgrößen erreicht.',
    movingNote:
      'Unsicherheit: erweitert, k = 2 (rund 95 %), der Messung des besten Versuchs. Bremswege ohne Reaktionszeit.',
  },
});
