/** How gear changes are found and what the driveline was asked, in German. */
import { EIGENE, type RuleWords } from '../../measurement/words/translated.ts';
import type { DrivelineRuleId } from '../driveline-rules.ts';

export const DRIVELINE_RULES_DE: Readonly<Record<DrivelineRuleId, RuleWords>> = {
  shifts: {
    name: 'Schaltvorgänge',
    rule:
      'Ein Hochschalten zeigt sich als Einbruch der Beschleunigung zwischen zwei Abschnitten mit Zug oder, wo das Protokoll ' +
      'die Motordrehzahl enthält, als Sprung ihres Verhältnisses zur Geschwindigkeit des Autos. Ein Auto, das ohne Einbruch ' +
      'weiterzieht, hat nicht messbar geschaltet; ein Fahrer, der ebenso lange vom Gas geht, sieht genauso aus. Wo ein ' +
      'Protokoll sie nicht hätte zeigen können, wird das gesagt.',
    constants: [
      'wenigste Messwerte je Sekunde',
      'gesucht über',
      'der Einbruch dauert',
      'die Beschleunigung fällt auf höchstens diesen Anteil des schwächeren Zugs',
      'der Zug auf jeder Seite ist mindestens',
      'der neue Zug ist mindestens dieser Anteil des alten',
      'die fehlende Geschwindigkeit übersteigt ihre Standardabweichung',
      'nicht gesucht, wo die Streuung einen Verlust verbergen würde von',
      'als „mindestens“ gezählt, wo ein Verlust unbemerkt bleiben kann über',
    ],
    source: EIGENE,
  },
  'shift-loss': {
    name: 'Zeitverlust beim Schalten',
    rule:
      'Was das Schalten wirklich gedauert hat, vom alten Zug bis zum neuen, weniger, was es gedauert hätte, wenn es keine ' +
      'Zeit gebraucht hätte: mit dem alten Zug bis zu der Geschwindigkeit, bei der das Schalten begann, und dem neuen ab ' +
      'dieser Geschwindigkeit.',
    constants: ['Standardunsicherheit für das, was die Anpassung weglässt'],
    source: EIGENE,
  },
  launches: {
    name: 'Starts und Pausen',
    rule:
      'Jeder Start aus dem Stand wird nach seiner Methode gezählt, auch aufgegebene und nicht gewertete, mit der Pause seit ' +
      'dem vorigen, von erster Bewegung zu erster Bewegung. Ein Start bald nach einem anderen wird gekennzeichnet.',
    constants: ['eine Pause ist kurz unter'],
    source: EIGENE,
  },
  'slip-heat': {
    name: 'Wärme einer schleifenden Kupplung',
    rule:
      'Wo die Motordrehzahl aufgezeichnet ist: Kraft am Auto mal Geschwindigkeit des Schlupfs, aufsummiert bis zum Ende des ' +
      'Schlupfs; sonst nur, was es mindestens und höchstens gewesen sein kann. Es ist eine Schätzung der Energie. Sie sagt ' +
      'nicht, wie heiß etwas war, was es verträgt oder was sein Hersteller erlaubt.',
    constants: [
      'wenigste Messwerte je Sekunde',
      'der Schlupf ist zu Ende binnen dieses Anteils der Drehzahl einer geschlossenen Kupplung',
      'was sich dreht, erhöht die Masse des Autos um diesen Anteil',
    ],
    source:
      'Shigley, Mechanical Engineering Design (aus dem Gedächtnis); Drehmassenzuschlag 1,04 + 0,0025 i² aus Handbüchern',
  },
};
