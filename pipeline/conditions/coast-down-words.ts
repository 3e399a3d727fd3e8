/** Why coast-downs decide nothing, in one clause. */
import { localiseDigits } from '../digits.ts';
import { catalogue, type Spoken } from '../language.ts';
import { roundToDecimals } from '../round.ts';
import type { CoastDownRefusal } from './coast-down.ts';

const WORDS = catalogue({
  en: {
    few: (there: number, back: number, fewest: number) =>
      `${there} one way and ${back} the other; at least ${fewest} each way are needed to tell drag from wind and slope`,
    narrow: 'their speeds are too near each other to tell drag from rolling resistance',
    undetermined: 'they do not determine drag and rolling resistance',
    negative: 'they give a drag or a rolling resistance below zero',
    disagree: (percent: string) => `they agree on the drag area to ${percent} % only`,
  },
  de: {
    few: (there, back, fewest) =>
      `${there} in der einen und ${back} in der anderen Richtung; mindestens ${fewest} je Richtung sind nötig, um Luftwiderstand von Wind und Neigung zu trennen`,
    narrow:
      'ihre Geschwindigkeiten liegen zu nah beieinander, um Luftwiderstand und Rollwiderstand zu trennen',
    undetermined: 'sie bestimmen Luftwiderstand und Rollwiderstand nicht',
    negative: 'sie ergeben einen Luft- oder Rollwiderstand unter null',
    disagree: percent => `sie stimmen in der Luftwiderstandsfläche nur auf ${percent} % überein`,
  },
});

/** The reason in one clause, without a full stop. */
export function coastDownRefusalInWords(refusal: CoastDownRefusal, spoken: Spoken): string {
  const words = WORDS(spoken);
  switch (refusal.why) {
    case 'few':
      return words.few(refusal.there, refusal.back, refusal.fewest);
    case 'disagree':
      return words.disagree(localiseDigits(roundToDecimals(refusal.percent, 0), spoken));
    default:
      return words[refusal.why];
  }
}
