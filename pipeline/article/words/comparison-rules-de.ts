/** How figures are picked, counted, rounded and set against each other, in German. */
import { EIGENE, type RuleWords } from '../../measurement/words/translated.ts';
import type { ComparisonRuleId } from '../comparison-rules.ts';

export const COMPARISON_RULES_DE: Readonly<Record<ComparisonRuleId, RuleWords>> = {
  kept: {
    name: 'Gewertet und nicht gewertet',
    rule:
      'Jeder Versuch ist das eine oder das andere. Einer, der nicht gewertet wird, hat einen Grund, der aufgeschrieben ist, ' +
      'bevor seine Zeit angesehen wird; er wird trotzdem gezählt, aufgeführt und gezeichnet, hohl. Eine Fahrt im Protokoll, ' +
      'von der die Aufzeichnungen nichts sagen, wird aus diesem Grund nicht gewertet.',
    constants: [],
    source: EIGENE,
  },
  'best-and-median': {
    name: 'Bester, Median und wie viele',
    rule:
      'Ein Bestwert wird mit der Zahl der Versuche gedruckt, von denen er der beste ist, und mit deren Median, denn einem ' +
      'Besten von vielen hilft der Zufall mehr als einem Besten von wenigen. Wo Methoden nebeneinanderstehen, steht der ' +
      'Bestwert dabei, der aus weniger Versuchen zu erwarten gewesen wäre, aus den Versuchen selbst: der mittlere Bestwert ' +
      'über alle Arten, so viele von ihnen herauszugreifen.',
    constants: ['Bestwerte werden vergleichbar gemacht bei', 'was nur ein grober Anhalt ist unter'],
    source: 'Hoeffding, Annals of Mathematical Statistics 19 (1948)',
  },
  'median-uncertainty': {
    name: 'Unsicherheit eines Bestwerts und eines Medians',
    rule:
      'Die eines Bestwerts ist die der Zeitnahme dieses einen Versuchs: nicht, wie nah ihm das Auto noch einmal kommt. Die ' +
      'eines Medians enthält auch die Streuung zwischen den Versuchen: ab sechs Versuchen das fernere Ende des ' +
      'Vorzeichenintervalls, das keine Verteilung annimmt; unter sechs erreicht kein solches Intervall 95 %, und die Streuung ' +
      'wird als normalverteilt angenommen (Students t).',
    constants: ['wenigste Versuche ohne eine Annahme'],
    source: 'JCGM 100:2008, 4.2 und G.3; Vorzeichentest',
  },
  rounding: {
    name: 'Runden',
    rule:
      'Eine Zahl wird einmal gerundet, beim Drucken, zur nächsten, bei Gleichstand zur geraden Ziffer. Ein Wert trägt nicht ' +
      'mehr Ziffern, als seine Unsicherheit erlaubt: bis zur Stelle der ersten Ziffer der Unsicherheit oder der zweiten, wo ' +
      'die erste eine 1 ist. Eine Unsicherheit wird aufgerundet, wo Abrunden mehr als ein Zehntel von ihr wegnähme. ' +
      'Ergebnisse für andere Programme werden nicht gerundet.',
    constants: [],
    source: 'ISO 80000-1, Anhang B, Regel A; JCGM 100:2008, 7.2.6',
  },
  'too-close': {
    name: 'Zu eng für eine Rangfolge',
    rule:
      'Zwei Ergebnisse, deren Unterschied seine eigene erweiterte Unsicherheit nicht übersteigt, erhalten keine Rangfolge. ' +
      'Die des Unterschieds ist die Wurzel aus der Summe der Quadrate beider. Was ein Empfänger an beiden gleich falsch ' +
      'macht, bleibt darin, sodass mehr zu eng ist, nie weniger.',
    constants: [],
    source: 'JCGM 100:2008, 5.1.2 und 5.2.2',
  },
  'launch-comparison': {
    name: 'Startmethoden oder Richtungen eines Tages',
    rule:
      'Eine Methode oder Richtung liegt nur vorn, wo der bloße Zufall die Versuche seltener so ungleich teilen würde, als die ' +
      'Schwelle angibt, exakt nach Rängen ausgezählt, und wo der Unterschied der Mediane größer ist als das, was Zeitnahme ' +
      'und Streuung auflösen. Wo mehrere Paare verglichen werden, teilen sich diejenigen die Schwelle, die sich überhaupt ' +
      'unterscheiden könnten. So wenige Versuche, dass sich nichts zeigen ließe, sind „zu wenige für ein Urteil“: Drei gegen ' +
      'drei lassen sich nie trennen.',
    constants: ['Schwelle', 'ausgezählt bis'],
    source:
      'Mann und Whitney (1947), exakt; Hodges und Lehmann (1963); Holm (1979) über die Paare nach Tarone (1990)',
  },
  alike: {
    name: 'Vergleichbar und nicht vergleichbar',
    rule:
      'Zwei Tests werden Bedingung für Bedingung gegeneinandergehalten: Jede ist vergleichbar, nicht vergleichbar oder nicht ' +
      'bekannt. Eine andere Fahrbahn, Startregel oder Temperatur gleicht nichts aus. Luftdichte, Wind und Neigung, die nicht ' +
      'vergleichbar sind, stehen einer Rangfolge entgegen, es sei denn, beide Tests lassen sich umrechnen und liegen dort in ' +
      'derselben Reihenfolge; die Zuladung, es sei denn, der Unterschied ist größer, als sie ihn gemacht haben kann. Messrate ' +
      'und Zahl der Versuche stecken schon in der Unsicherheit und werden genannt.',
    constants: [],
    source: EIGENE,
  },
};
