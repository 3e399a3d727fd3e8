/** How air, wind and slope are dealt with, and what a restated figure is, in German. */
import { EUROPEAN_COAST_DOWN } from '../../conditions/limits.ts';
import { localiseDigits } from '../../digits.ts';
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
      'Der mittlere Anstieg der Strecke in Fahrtrichtung, wie ihre Datei ihn angibt, sonst aus den Enden ihrer Vermessung. ' +
      'Positiv ist bergauf.',
    constants: [],
    source: EIGENE,
  },
  'two-directions': {
    name: 'Zwei Richtungen',
    rule:
      'Das Mittel zweier entgegengesetzter Fahrten hebt die Neigung der Strecke auf: Was sie in der einen Richtung nimmt, ' +
      'gibt sie in der anderen. Den Wind hebt es nicht auf. Der Luftwiderstand wächst mit dem Quadrat der Geschwindigkeit, ' +
      'mit der die Luft am Auto vorbeistreicht; deshalb kostet Wind in der einen Richtung mehr, als er in der anderen ' +
      'zurückgibt: Der mittlere Luftwiderstand beider ist das 1 + (w/v)²-fache dessen bei Windstille.',
    constants: [
      `dieses Mittel bei 100 km/h und einem Wind von ${localiseDigits(String(EUROPEAN_COAST_DOWN.meanWindMps), 'de')} m/s längs der Strecke`,
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
