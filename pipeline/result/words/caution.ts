/** The standing cautions, word for word. */
import { catalogue } from '../../language.ts';

export const cautionWords = catalogue({
  en: {
    standard:
      'Tests like these can injure and kill. They were made on a closed road, with permission. ' +
      'Local law and licensed practice come first. A figure here says what was measured, ' +
      'not what is allowed or what another car, road or day will give.',
    plan:
      'Tests like these can injure and kill. A closed road with permission, local law and licensed practice come first. ' +
      'This plan is arithmetic on the assumptions stated with it and not a clearance to drive.',
  },
  de: {
    standard:
      'Bei solchen Tests können Menschen verletzt oder getötet werden. Sie fanden mit Erlaubnis auf einer abgesperrten Strecke statt. ' +
      'Örtliches Recht und die Regeln für genehmigte Fahrversuche gehen vor. Ein Messwert sagt, was gemessen wurde, ' +
      'nicht, was erlaubt ist oder was ein anderes Auto, eine andere Strecke oder ein anderer Tag ergibt.',
    plan:
      'Bei solchen Tests können Menschen verletzt oder getötet werden. Eine abgesperrte Strecke mit Erlaubnis, örtliches Recht und die Regeln für genehmigte Fahrversuche gehen vor. ' +
      'Dieser Plan ist eine Rechnung mit den hier genannten Annahmen und keine Freigabe zum Fahren.',
  },
});
