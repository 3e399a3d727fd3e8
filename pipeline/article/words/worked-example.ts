/** Words of the example that is worked out by hand. */
import { catalogue } from '../../language.ts';
import type { BudgetSource } from '../../measurement/uncertainty.ts';

export const exampleWords = catalogue({
  en: {
    /** What each item of a budget stands for. */
    budget: {
      start: 'Start of the clock: spread of the answers of the fit, and what its family of rises leaves out',
      rollout: 'Instant at which the car had covered one foot',
      noise: 'Noise of the readings around the crossing',
      interpolation: 'Bend of the speed between two readings',
      sampling: 'Time between readings',
      stop: 'Instant of rest',
      receiver: 'Accuracy of speed that the receiver’s maker states',
      lag: 'Filter of the receiver, which makes speeds late',
      position: 'Speed worked out from positions: the difference smooths starts and stops',
      jitter: 'Scatter of the time stamps',
      'held-values': 'Readings that the recorder repeats',
      gap: 'Readings that are missing',
    } satisfies Record<BudgetSource, string>,
    later: (by: string, earlier: boolean) => `${by} ${earlier ? 'earlier' : 'later'}`,
    startCaption: (attempt: number) =>
      `Readings around the first movement of attempt ${attempt}, as logged, with the distance since first movement`,
    crossingCaption: (speed: string) => `Readings around ${speed}, as logged`,
    budgetCaption: (label: string) => `Budget of uncertainty of this ${label}, clock from first movement`,
    timeInLog: 'Time in the log',
    speed: 'Speed',
    distance: 'Distance',
    item: 'Item',
    standard: 'Standard uncertainty',
    square: 'Its square',
    sum: 'Sum of the squares',
    root: 'Its root: combined',
    expanded: (k: number) => `Times ${k}: expanded`,
    distanceNote: (from: string) =>
      `Distance: the mean of two neighbouring speeds, in m/s, times the time between them, added up; the first piece begins at ${from} from rest.`,
    intro: (label: string, attempt: number, title: string, date: string, at: string) =>
      `${label} of attempt ${attempt} of “${title}”, ${date}, at ${at}: the best of that day. Everything below is worked out from its log when these pages are made, with all digits; a calculator fed with the printed ones may differ in the last.`,
    firstMovement: (past: string, straight: string, published: string, later: string) =>
      `First movement. A straight line through the first two readings past ${past}, drawn back to rest, meets it at ${straight}: the car would have sprung to its full acceleration at once. The published fit lets acceleration rise in a time it does not know, and finds ${published}, which is ${later}.`,
    oneFoot: (foot: string, straight: string, published: string, later: string, sum: string) =>
      `One foot. The distance passes ${foot} between the last two readings; a straight line between them gives ${straight}. The published fit, which follows the curve, gives ${published}, ${later}. So the foot took ${sum}.`,
    crossing: (speed: string, sum: string, published: string, later: string) =>
      `${speed}. By a straight line between the two middle readings: ${sum}. The published one, a parabola through more of the readings around it, is ${published}, ${later}: two readings carry their whole noise into the answer, many carry less.`,
    subtraction: (fromMovement: string, fromRollout: string) =>
      `Subtraction. From first movement: ${fromMovement}. After the one-foot rollout: ${fromRollout}.`,
    rounding: (expanded: string, value: string, printed: string) =>
      `Rounding. The expanded uncertainty ${expanded} sets the last place of the value, ${value}. Printed: ${printed}.`,
  },
  de: {
    budget: {
      start:
        'Beginn der Zeitnahme: Streuung der Antworten der Anpassung und was ihre Familie von Anstiegen weglässt',
      rollout: 'Zeitpunkt, zu dem das Auto einen Fuß zurückgelegt hatte',
      noise: 'Rauschen der Messwerte um den Durchgang',
      interpolation: 'Krümmung der Geschwindigkeit zwischen zwei Messwerten',
      sampling: 'Zeit zwischen den Messwerten',
      stop: 'Zeitpunkt des Stillstands',
      receiver: 'Genauigkeit der Geschwindigkeit nach Angabe des Empfängerherstellers',
      lag: 'Filter des Empfängers, das Geschwindigkeiten verspätet',
      position: 'Geschwindigkeit aus Positionen: Die Differenz glättet Starts und Stopps',
      jitter: 'Streuung der Zeitstempel',
      'held-values': 'Messwerte, die das Aufzeichnungsgerät wiederholt',
      gap: 'Fehlende Messwerte',
    },
    later: (by, earlier) => `${by} ${earlier ? 'früher' : 'später'}`,
    startCaption: attempt =>
      `Messwerte um die erste Bewegung von Versuch ${attempt}, wie aufgezeichnet, mit der Strecke seit der ersten Bewegung`,
    crossingCaption: speed => `Messwerte um ${speed}, wie aufgezeichnet`,
    budgetCaption: label => `Unsicherheitsbudget dieses Werts für ${label}, gemessen ab der ersten Bewegung`,
    timeInLog: 'Zeit im Protokoll',
    speed: 'Geschwindigkeit',
    distance: 'Strecke',
    item: 'Posten',
    standard: 'Standardunsicherheit',
    square: 'Ihr Quadrat',
    sum: 'Summe der Quadrate',
    root: 'Ihre Wurzel: kombiniert',
    expanded: k => `Mal ${k}: erweitert`,
    distanceNote: from =>
      `Strecke: das Mittel zweier benachbarter Geschwindigkeiten in m/s mal der Zeit dazwischen, aufsummiert; das erste Stück beginnt bei ${from} aus dem Stand.`,
    intro: (label, attempt, title, date, at) =>
      `${label} von Versuch ${attempt} aus „${title}“, ${date}, um ${at}: der beste dieses Tages. Alles hier wird aus seinem Protokoll berechnet, wenn diese Seiten entstehen, mit allen Ziffern; ein Taschenrechner mit den gedruckten kann in der letzten abweichen.`,
    firstMovement: (past, straight, published, later) =>
      `Erste Bewegung. Eine Gerade durch die ersten beiden Messwerte über ${past}, bis zum Stand zurückgezogen, trifft ihn bei ${straight}: Das Auto wäre auf einen Schlag zu voller Beschleunigung gesprungen. Die veröffentlichte Anpassung lässt die Beschleunigung in einer Zeit wachsen, die sie nicht kennt, und findet ${published}, also ${later}.`,
    oneFoot: (foot, straight, published, later, sum) =>
      `Ein Fuß. Die Strecke durchläuft ${foot} zwischen den letzten beiden Messwerten; eine Gerade zwischen ihnen ergibt ${straight}. Die veröffentlichte Anpassung, die der Kurve folgt, ergibt ${published}, ${later}. Der Fuß dauerte also ${sum}.`,
    crossing: (speed, sum, published, later) =>
      `${speed}. Nach einer Geraden zwischen den beiden mittleren Messwerten: ${sum}. Der veröffentlichte Zeitpunkt, aus einer Parabel durch mehr der Messwerte ringsum, ist ${published}, ${later}: Zwei Messwerte tragen ihr ganzes Rauschen in die Antwort, viele tragen weniger.`,
    subtraction: (fromMovement, fromRollout) =>
      `Subtraktion. Ab der ersten Bewegung: ${fromMovement}. Nach einem Fuß Anrollweg: ${fromRollout}.`,
    rounding: (expanded, value, printed) =>
      `Runden. Die erweiterte Unsicherheit ${expanded} bestimmt die letzte Stelle des Werts, ${value}. Gedruckt: ${printed}.`,
  },
});
