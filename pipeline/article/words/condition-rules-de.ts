/** How air, wind and slope are dealt with, and what a restated figure is, in German. */
import { EIGENE, type RuleWords } from '../../measurement/words/translated.ts';
import type { ConditionRuleId } from '../condition-rules.ts';
import { AUSROLLEN } from './methodology.ts';

export const CONDITION_RULES_DE: Readonly<Record<ConditionRuleId, RuleWords>> = {
  'reading-of-conditions': {
    name: 'Welche Ablesung gilt',
    rule:
      'Luft, Wind und Fahrbahn eines Versuchs sind die der letzten Ablesung davor; vor der ersten Ablesung die der ersten. ' +
      'Ablesungen werden nie gemittelt oder zwischen zweien ausgezogen. Was nicht abgelesen wurde, wird als nicht abgelesen ' +
      'genannt, und es wird nichts daraus berechnet.',
    constants: [],
    source: EIGENE,
  },
  air: {
    name: 'Luftdichte',
    rule:
      'Aus Temperatur, Luftdruck an der Strecke und relativer Feuchte nach CIPM-2007 innerhalb des Geltungsbereichs; ' +
      'außerhalb als Gemisch zweier idealer Gase mit dem Dampfdruck nach Buck. Jeder Test nennt, welches von beiden es war.',
    constants: ['CIPM-2007 gilt für Temperaturen von', 'und Drücke von'],
    source:
      'Picard, Davis, Gläser und Fujii, Metrologia 45 (2008) 149–155; Handbuch zum Buck Research CR-1A, Anhang 1 (1996)',
  },
  wind: {
    name: 'Wind längs und quer zum Auto',
    rule:
      'Der mittlere Wind wird nach dem Winkel zerlegt zwischen der Richtung, aus der er kommt, und der, in die das Auto ' +
      'fährt. Längs des Autos ist er positiv gegen die Fahrt: Gegenwind. Böen werden notiert und gehen in keinen Wert ein.',
    constants: [],
    source: 'Trigonometrie',
  },
  slope: {
    name: 'Neigung',
    rule:
      'Der mittlere Anstieg der Strecke in Fahrtrichtung, wie ihre Datei ihn angibt, sonst aus den Enden ihrer Vermessung oder, wo es ' +
      'keine gibt, aus Protokollen. ' +
      'Positiv ist bergauf.',
    constants: [],
    source: EIGENE,
  },
  'logged-slope': {
    name: 'Neigung aus Protokollen',
    rule:
      'Wo eine Strecke nicht vermessen wurde und ihre Datei das sagt, wird ihre mittlere Neigung aus der Höhe genommen, die ' +
      'die eigenen Protokolle eines Tests enthalten. Eine Fahrt sagt wenig, denn die Satellitenhöhe wandert binnen Minuten ' +
      'um einen Meter; deshalb wird das Mittel vieler Fahrten über dasselbe Stück genommen, in beiden Richtungen, und ihre ' +
      'Streuung durch die Wurzel ihrer Anzahl ist seine Standardunsicherheit. Die Seite des Tests nennt, dass die Neigung ' +
      'aufgezeichnet wurde, auf wie vielen Fahrten und über welche Länge.',
    constants: ['mindestens Fahrten über dasselbe Stück', 'die Höhe wird gemittelt über'],
    source: 'Eigene; JCGM 100:2008, 4.2.3',
  },
  'road-in-budget': {
    name: 'Die Strecke in der Unsicherheit',
    rule:
      'Ein gemessener Wert ist der dieses Autos auf dieser Strecke an diesem Tag: Die Neigung der Strecke gehört zu dem, was ' +
      'gemessen wurde, wie Wind und Luft, und ist deshalb kein Posten seiner Unsicherheit, so ungenau sie auch bekannt ist. ' +
      '(Dass ein Empfänger waagrechte Geschwindigkeit misst und das Auto längs der Neigung fährt, macht das halbe Quadrat ' +
      'der Neigung aus: bei der steilsten, die umgerechnet wird, den Anteil unten.) Ein umgerechneter Wert gilt für eine ' +
      'ebene Strecke; was von der Neigung nicht bekannt ist, gehört zu ihm, und sein Budget hat einen Posten dafür, im ' +
      'Rechenweg jedes Versuchs. Der Posten ist die umgerechnete Zeit, wenn die Neigung um ihre Standardunsicherheit ' +
      'verschoben wird: die der Vermessung oder der aufgezeichneten Neigung und die davon, wie verschieden Stücke der ' +
      'Strecke sind, denn wo auf ihr eine Fahrt begann, ist nicht notiert.',
    constants: [
      'einer Zeit oder Strecke durch waagrechte statt geneigter Geschwindigkeit höchstens',
      'Standardunsicherheit einer vermessenen Neigung, bezogen auf die Strecke',
    ],
    source: 'JCGM 100:2008, D.1 und 5.1',
  },
  coasting: {
    name: 'Luft- und Rollwiderstand durch Ausrollen',
    rule:
      'Wo ein Protokoll beim Ausrollen ohne Gang aufgezeichnet wurde, in beiden Richtungen der Strecke, werden ' +
      'Luftwiderstandsfläche und Rollwiderstand daraus berechnet und neben die für das Auto angegebenen gestellt. Die ' +
      'Geschwindigkeit wird gegen die Integrale der Zeit, der Geschwindigkeit und ihres Quadrats gehalten, sodass nichts ' +
      'abgeleitet wird; Wind und Neigung zeigen sich daran, dass die Richtungen sich unterscheiden. Eine Strecke, die auf ' +
      'ihrer Länge steiler wird, sieht in beiden Richtungen wie Luftwiderstand aus: Was das ausmachen kann, ist Teil der ' +
      'Unsicherheit, neben der Streuung, wenn jede Ausrollfahrt einmal weggelassen wird. Umgerechnete Werte verwenden das ' +
      'Ergebnis nur, wo der Test es sagt.',
    constants: [
      'eine Ausrollfahrt dauert mindestens',
      'verliert mindestens',
      'und wird verfolgt bis hinunter zu',
      'mindestens je Richtung',
      'höchste durch niedrigste Geschwindigkeit mindestens',
      'nichts wird genannt, wo die Luftwiderstandsfläche schlechter bekannt ist als',
      'Anteil drehender Räder an der Masse',
    ],
    source: 'Bewegungsgleichung; Weglassen nach Tukey (1958)',
  },
  'two-directions': {
    name: 'Zwei Richtungen',
    rule:
      'Das Mittel zweier entgegengesetzter Fahrten hebt die Neigung der Strecke auf: Was sie in der einen Richtung nimmt, ' +
      'gibt sie in der anderen. Den Wind hebt es nicht auf. Der Luftwiderstand wächst mit dem Quadrat der Geschwindigkeit, ' +
      'mit der die Luft am Auto vorbeistreicht; deshalb kostet Wind in der einen Richtung mehr, als er in der anderen ' +
      'zurückgibt: Der mittlere Luftwiderstand beider ist das 1 + (w/v)²-fache dessen bei Windstille.',
    constants: [
      'dieses Mittel bei einer Geschwindigkeit v von',
      'mit einem Wind w längs der Strecke von',
      'beträgt',
    ],
    source: 'Geschlossene Form des Luftwiderstands als Quadrat der Geschwindigkeit',
  },
  reference: {
    name: 'Bezugsstrecke und Bezugsluft',
    rule: 'Ein umgerechneter Wert gilt für eine ebene Strecke in ruhender, trockener Luft.',
    constants: ['Temperatur', 'Druck', 'Dichte dieser Luft'],
    source: AUSROLLEN,
  },
  restated: {
    name: 'Umgerechnete Werte',
    rule:
      'Die gemessene Fahrt wird noch einmal für Bezugsstrecke und Bezugsluft berechnet: In jedem Augenblick ändert der ' +
      'Unterschied von Neigung, Wind und Dichte die Beschleunigung des Autos um den Unterschied seines Fahrwiderstands ' +
      'geteilt durch seine Masse, und die Fahrt wird neu integriert. Nur Unterschiede gehen ein, sodass sich das meiste ' +
      'heraushebt, was man vom Auto nicht weiß. Was jede Bedingung geändert hat, wird genannt, und die Teile ergeben das ' +
      'Ganze. Der gemessene Wert steht unverändert daneben. Wo eine Angabe fehlt oder jenseits der Grenzen hier unten liegt, ' +
      'wird nichts umgerechnet.',
    constants: [
      'nicht umgerechnet bei mehr Wind längs der Fahrt als',
      'noch bei mehr Neigung über 50 m als',
      'noch bei einer Dichte weiter vom Bezug als',
      'Standardunsicherheit einer gewogenen Masse',
      'einer errechneten Masse',
      'der Luftwiderstandsfläche',
      'des Winds längs der Fahrt',
      'und dieser Anteil des Winds, zusammen',
      'der Neigung, bezogen auf die Strecke',
      'der Luftdichte',
      'dessen, was sich mit dem Motor dreht',
    ],
    source: 'Eigene; Anteile jeder Bedingung nach Shapley (1953)',
  },
  power: {
    name: 'Motorleistung',
    rule:
      'Eine Korrektur für die Luft gibt es nur, wo eine Norm sie erlaubt, und nur innerhalb der Grenzen dieser Norm. Eine ' +
      'Zeit wird nie damit multipliziert: Sie ändert die Kraft, mit der die umgerechnete Fahrt berechnet wird.',
    constants: [],
    source: 'ISO 1585, wie Handbücher der Hersteller sie wiedergeben',
  },
  'weather-limits': {
    name: 'Veröffentlichte Grenzen des Wetters',
    rule:
      'Regeln für Ausrollversuche sagen, bei welchem Wetter ein Auto überhaupt gemessen werden darf. Ihren mittleren Wind und ' +
      'ihre Abweichung der Dichte nehmen wir als Grenzen, um zwei Tests gegeneinanderzuhalten; die übrigen stehen hier für ' +
      'den Leser.',
    constants: ['mittlerer Wind', 'Böen', 'Wind quer zur Strecke', 'Abweichung der Dichte vom Bezug'],
    source: AUSROLLEN,
  },
};
