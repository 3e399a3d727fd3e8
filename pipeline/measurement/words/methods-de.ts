/** How every figure is worked out, in German. */
import type { MethodId } from '../methods.ts';
import { EIGENE, type RuleWords, UEBLICH } from './translated.ts';

export const METHODS_DE: Readonly<Record<MethodId, RuleWords>> = {
  readings: {
    name: 'Messwerte',
    rule:
      'Nur neue Messwerte zählen. Wo ein Aufzeichnungsgerät einen Messwert über mehrere Zeilen wiederholt, obwohl das Auto ' +
      'seine Geschwindigkeit ändert, bleiben die Wiederholungen weg, und die Fahrt wird gekennzeichnet. Ein Messwert, den ' +
      'kein Auto aus seinen Nachbarn heraus erreichen könnte, wird weggelassen und genannt; eine Lücke wird nie aufgefüllt.',
    constants: [
      'Änderung der Geschwindigkeit, über der ein Messwert keinem Auto gehört',
      'längste Folge solcher Messwerte',
      'ein Abstand ist eine Lücke über so vielen üblichen',
      'und über',
    ],
    source: EIGENE,
  },
  noise: {
    name: 'Rauschen eines Messwerts',
    rule:
      'Die Streuung der Messwerte, während das Auto steht, oder der dritten Differenzen, während es fährt, je nachdem, was ' +
      'größer ist; nie weniger als der kleinste Schritt des Aufzeichnungsgeräts geteilt durch √12. Wo ein Protokoll weder ' +
      'das eine noch das andere zeigt, wird ein Wert angenommen.',
    constants: ['das Auto steht unter', 'angenommen, wo das Protokoll nichts zeigt'],
    source: 'JCGM 100:2008, 4.2 und 4.3.7',
  },
  distance: {
    name: 'Strecke',
    rule:
      'Das Integral der aufgezeichneten Geschwindigkeit nach der Trapezregel. Positionen werden nie aufsummiert, und solange ' +
      'das Auto steht, kommt nichts hinzu.',
    constants: [],
    source: UEBLICH,
  },
  'standing-start': {
    name: 'Start aus dem Stand',
    rule:
      'Das Auto steht, verlässt den Stand und gewinnt kräftig Geschwindigkeit. Kriechen, Wenden, Anstehen und sanftes ' +
      'Losfahren gewinnen weniger und sind keine Fahrten. Ein sanfterer Start zählt trotzdem, wenn er durchgehalten wird ' +
      'und fast so kräftig zieht wie der kräftigste Start desselben Protokolls: Das Beste eines langsamen Fahrzeugs ist der ' +
      'Rückweg eines schnellen. Ein Start, bei dem der Fahrer früh vom Gas geht, ist abgebrochen; gezeigt wird er trotzdem.',
    constants: [
      'der Stand dauert mindestens',
      'der Start wird beurteilt ab',
      'das erreicht ist binnen',
      'bis',
      'mittlere Beschleunigung dazwischen mindestens',
      'oder, bis zur Geschwindigkeit einer vollständigen Fahrt durchgehalten, mindestens',
      'ein früher aufgegebener Versuch wird beurteilt bis',
      'und gewinnt mindestens',
      'ein sanfterer Start gewinnt mindestens',
      'was er schon tut bis',
      'und mindestens diesen Anteil am Mittel des kräftigsten Starts',
      'vollständig ab',
      'ein Schaltvorgang ist nicht länger als',
    ],
    source: EIGENE,
  },
  'rolling-run': {
    name: 'Fahrt aus dem Rollen',
    rule:
      'Das Auto gewinnt aus dem Rollen kräftig Geschwindigkeit und deckt mindestens eine der Zwischenzeiten aus rollender ' +
      'Fahrt ab. Kräftig heißt: gewonnene Bewegungsenergie je Sekunde und Kilogramm, was bei jeder Geschwindigkeit dieselbe ' +
      'Forderung ist.',
    constants: ['beginnt bei', 'gewinnt mindestens'],
    source: EIGENE,
  },
  'braking-run': {
    name: 'Bremsung',
    rule:
      'Durchgehendes Bremsen bis zum Stand. Eine Bremsung bald nach einer Beschleunigung gehört zur selben Fahrt; jede ' +
      'andere ist eine Fahrt für sich.',
    constants: [
      'beginnt bei',
      'verliert im Mittel mindestens',
      'die Bremse ist gelöst für höchstens',
      'dieselbe Fahrt, wenn sie beginnt binnen',
    ],
    source: EIGENE,
  },
  'first-movement': {
    name: 'Erste Bewegung',
    rule:
      'Der Zeitpunkt, zu dem das Auto den Stand verlässt, aus einer Anpassung an den ganzen Anstieg und nicht aus einer ' +
      'Schwelle. Die Beschleunigung wächst aus dem Nichts, in einer Zeit und auf eine Weise, die niemand kennt: gleichmäßig, ' +
      'weich, mit langsamem oder schnellem Beginn oder zu einem Teil sofort. Jede Zeit und jede Weise wird durchgerechnet, ' +
      'das Übrige nach kleinsten Quadraten angepasst, und die Antworten werden mit dem Gewicht gemittelt, das die Messwerte ' +
      'ihnen geben. Was sofort da wäre, gilt im Mittel als unwahrscheinlich, weil Reifen und Wellen sich erst verdrehen, ' +
      'bevor sie schieben; in der Unsicherheit, der Streuung der Antworten, zählt es halb so viel wie das andere. Wo das Auto an die ' +
      'Linie kriecht oder zurückrollt, beginnt die Zeitnahme mit dem Anstieg, der zum Start wird, und die Fahrt wird ' +
      'gekennzeichnet.',
    constants: [
      'betrachtete Anstiegszeiten',
      'Gewicht im Mittel einer Weise mit sofortigem Anteil, neben 1',
      'und in der Unsicherheit',
      'der Anpassung wird bis zu diesem Anteil der Geschwindigkeit getraut',
      'Standardunsicherheit für das, was die Anpassung weglässt',
    ],
    source:
      'Eigene; Mittelung über Modelle wie bei Hoeting und anderen, Statistical Science 14 (1999) 382 (aus dem Gedächtnis)',
  },
  'one-foot-rollout': {
    name: 'Ein Fuß Anrollweg',
    rule:
      'Uhr und Maßband beginnen beide dort, wo das Auto einen Fuß zurückgelegt hat, nach derselben Anpassung wie die erste ' +
      'Bewegung.',
    constants: ['Anrollweg', 'Anteil der Streuung der Anpassung, um den der erste Fuß unsicher ist'],
    source: 'SAE J1491 (2006), 3.3 nimmt dieselbe Strecke als erste Bewegung des Fahrzeugs',
  },
  'speed-splits': {
    name: 'Zeiten auf eine Geschwindigkeit',
    rule:
      'Der Zeitpunkt, zu dem die Geschwindigkeit den Wert durchläuft, aus einer Parabel durch die Messwerte ringsum: dem ' +
      'weitesten Abschnitt, den das Rauschen des Protokolls erklärt und der mit den engeren übereinstimmt; sonst aus der ' +
      'Geraden zwischen zwei Messwerten.',
    constants: ['Geschwindigkeiten', 'und', 'halbe Breiten der Abschnitte'],
    source: UEBLICH,
  },
  'distance-splits': {
    name: 'Zeiten über eine Strecke',
    rule:
      'Der Zeitpunkt, zu dem das Maßband die Strecke zeigt. Nach jeder Startregel beginnt das Maßband dort, wo die Uhr ' +
      'beginnt.',
    constants: ['Strecken'],
    source: UEBLICH,
  },
  'rolling-splits': {
    name: 'Zwischenzeiten aus rollender Fahrt',
    rule:
      'Die Zeit von einer Geschwindigkeit zur anderen innerhalb einer Beschleunigung; beide Zeitpunkte wie bei Zeiten auf ' +
      'eine Geschwindigkeit.',
    constants: [],
    source: UEBLICH,
  },
  'stopping-distance': {
    name: 'Bremsweg',
    rule:
      'Der Weg von dort, wo das Auto bremsend die genannte Geschwindigkeit durchläuft, bis zum Stillstand. Reaktion und ' +
      'alles oberhalb dieser Geschwindigkeit sind nicht darin. Der Zeitpunkt des Stillstands wird wie die erste Bewegung ' +
      'gefunden, rückwärts in der Zeit.',
    constants: ['Geschwindigkeiten', 'und', 'die Bremsung hat begonnen, wo das Auto mehr verliert als'],
    source: UEBLICH,
  },
  mfdd: {
    name: 'Mittlere Vollverzögerung',
    rule:
      '(vb² − ve²) / 25,92 (se − sb), wie die Regelung es schreibt, in welcher Einheit Geschwindigkeiten auch gezeigt ' +
      'werden: Geschwindigkeiten in km/h und Strecken in Metern; vb und ve sind Anteile der ' +
      'Geschwindigkeit, aus der die Bremsung angegeben ist, zu dem Zeitpunkt, zu dem das Auto sie bremsend durchläuft.',
    constants: ['vb', 've'],
    source: 'UN-Regelung Nr. 13-H, Anhang 3, 1.1.2',
  },
  'peak-acceleration': {
    name: 'Höchste Beschleunigung',
    rule:
      'Die steilste Gerade durch die Messwerte einer festen Zeitspanne, die zum Namen des Werts gehört. Die steilste von ' +
      'vielen Geraden ist im Mittel ein wenig zu steil; um wie viel, wird mit dem Rauschen des Logs selbst gezogen ' +
      '(JCGM 101), immer mit denselben Ziehungen. Es wird nicht abgezogen, sondern weitet die Unsicherheit (JCGM 100, F.2.4.5).',
    constants: ['Zeitspanne', 'Ziehungen'],
    source: UEBLICH,
  },
  'top-speed': {
    name: 'Höchste erreichte Geschwindigkeit',
    rule:
      'Der Scheitel einer Kurve durch die Messwerte um den höchsten: weich gebogen oder mit einer Spitze, wo der Fahrer vom ' +
      'Gas geht oder bremst; gemittelt mit dem Gewicht, das die Messwerte beiden geben. Ein einzelner Ausreißer kann sie ' +
      'nicht machen.',
    constants: ['Messwerte auf jeder Seite mindestens', 'und binnen'],
    source: EIGENE,
  },
  uncertainty: {
    name: 'Unsicherheit',
    rule:
      'Jeder Wert hat ein Budget: Start, Rauschen, Interpolation, Abtastung, die angegebene Genauigkeit des Empfängers, ' +
      'seine Verzögerung, Streuung der Zeitstempel, wiederholte Messwerte, Lücken. Das Filter eines Empfängers zeigt sich ' +
      'darin, dass benachbarte Messwerte im Stand einander gleichen; korrigiert wird dafür nichts, und der Anteil seiner ' +
      'Zeit, um den ein Wert falsch sein kann, ist ein Posten. Die Posten werden quadratisch addiert und erweitert. Ein Wert ' +
      'über eine Lücke hinweg bleibt stehen und trägt die ganze Lücke in seiner Unsicherheit.',
    constants: [
      'Erweiterungsfaktor',
      'Anteil der Zeit eines Filters: ab der ersten Bewegung, nach einem Fuß, zwischen zwei Geschwindigkeiten',
      'Standardunsicherheit der Geschwindigkeit aus Positionen: erste Bewegung, ein Fuß, zwischen zwei Geschwindigkeiten',
    ],
    source: 'JCGM 100:2008, 4.3.7, 5.1.2 und 6.2',
  },
  flags: {
    name: 'Kennzeichen',
    rule: 'Eine gekennzeichnete Fahrt wird gekennzeichnet gezeigt und nie weggelassen.',
    constants: [
      'niedrige Messrate unter',
      'Rauschen über',
      'Zeitstempel unregelmäßig über',
      'schlechter Empfang mit weniger als',
      'oder mit einer horizontalen Genauigkeitsminderung (HDOP) über',
      'oder mit einer angegebenen Genauigkeit der Geschwindigkeit schlechter als',
    ],
    source: UEBLICH,
  },
};
