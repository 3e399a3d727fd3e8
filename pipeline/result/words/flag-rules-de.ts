/** Names of flags and why a reader should know of them, in German; `limits` in the order of the rule's own. */
import type { RuledFlag } from '../flag-rules.ts';

export interface FlagWords {
  readonly name: string;
  readonly why: string;
  readonly limits: readonly string[];
}

export const FLAG_RULES_DE: Readonly<Record<RuledFlag, FlagWords>> = {
  gap: {
    name: 'Lücke',
    why: 'In der Fahrt fehlen Messwerte. Nichts wird aufgefüllt; ein Wert über die Lücke hinweg bleibt stehen und trägt die ganze Lücke in seiner Unsicherheit.',
    limits: ['Abstand über', 'und über'],
  },
  spike: {
    name: 'Unmöglicher Messwert',
    why: 'Ein Messwert, den kein Auto aus seinen Nachbarn heraus erreichen könnte, wurde weggelassen; der Empfänger hatte für einen Augenblick die Spur verloren.',
    limits: ['Änderung der Geschwindigkeit hin und zurück über'],
  },
  'held-values': {
    name: 'Wiederholte Messwerte',
    why: 'Das Aufzeichnungsgerät wiederholt einen Messwert über mehrere Zeilen. Die Wiederholungen bleiben weg; wie spät ein Messwert sein kann, steckt in der Unsicherheit.',
    limits: [],
  },
  'low-rate': {
    name: 'Niedrige Messrate',
    why: 'Bei wenigen Messwerten je Sekunde ist der Anstieg der Geschwindigkeit beim Start kaum zu sehen; die Unsicherheit wächst.',
    limits: ['weniger Messwerte je Sekunde als'],
  },
  noisy: {
    name: 'Rauschen',
    why: 'Einzelne Messwerte streuen stärker als bei gutem Empfang im Freien; die Unsicherheit wächst damit.',
    limits: ['ein einzelner Messwert streut um mehr als'],
  },
  filtered: {
    name: 'Gefiltert',
    why: 'Benachbarte Messwerte im Stand gleichen sich wie hinter einem Filter: Geschwindigkeiten können verspätet kommen. Nichts wird korrigiert; die Unsicherheit wächst.',
    limits: [],
  },
  'brief-rest': {
    name: 'Zu kurz gestanden',
    why: 'Ob ein Empfänger filtert, zeigt sich nur in Messwerten im Stand. Wo ein Protokoll davon zu wenige enthält, kann ein Filter ungesehen da sein, und das Intervall enthält die Wahrheit dann seltener, als es sagt. Lassen Sie das Auto mit eingeschaltetem Empfänger stehen.',
    limits: ['nicht zu sehen wäre ein Filter von'],
  },
  irregular: {
    name: 'Unregelmäßige Zeitstempel',
    why: 'Die Zeitstempel weichen von den Zeitpunkten ab, für die sie stehen; die Unsicherheit wächst mit der Beschleunigung.',
    limits: ['Zeitstempel unregelmäßig über'],
  },
  creep: {
    name: 'Kriechen vor dem Start',
    why: 'Das Auto kroch, bevor es losfuhr. Die Uhr startet mit dem Anstieg, der zum Start wird; wie weit es kroch, steht dabei.',
    limits: [],
  },
  'rolled-back': {
    name: 'Rollen vor dem Start',
    why: 'Das Auto bewegte sich kurz vor dem Start ein wenig, vor oder zurück, und stand dann wieder. Die Uhr startet danach.',
    limits: [],
  },
  'derived-speed': {
    name: 'Geschwindigkeit aus Positionen',
    why: 'Das Protokoll enthält keine eigene Geschwindigkeit des Empfängers. Eine aus Positionen berechnete Geschwindigkeit hinkt nach und streut stärker.',
    limits: [],
  },
  'poor-fix': {
    name: 'Schlechter Empfang',
    why: 'Bei wenigen Satelliten, oder wenn alle in einem Teil des Himmels stehen, ist die Geschwindigkeit unsicherer, als die Streuung zeigt.',
    limits: [
      'weniger Satelliten als',
      'oder horizontale Genauigkeitsminderung (HDOP) über',
      'oder vom Empfänger angegebene Genauigkeit der Geschwindigkeit schlechter als',
    ],
  },
  wind: {
    name: 'Wind',
    why: 'Wind längs der Strecke macht eine Fahrt schneller oder langsamer, und das Mittel zweier Richtungen hebt ihn nicht auf.',
    limits: ['mittlerer Wind über'],
  },
  slope: {
    name: 'Neigung',
    why: 'Eine Neigung von 1 % bringt oder kostet etwa 0,1 m/s² Beschleunigung.',
    limits: ['mittlere Neigung, auf oder ab, über'],
  },
  'short-road': {
    name: 'Kurze Strecke',
    why: 'Die Fahrt brauchte fast die ganze Strecke. Der Fahrer kann aus Platzmangel vom Gas gegangen sein oder gebremst haben; Höchstgeschwindigkeit und längste Messwerte sagen dann weniger über das Auto.',
    limits: ['Fahrt länger als'],
  },
  'warm-driveline': {
    name: 'Warmer Antriebsstrang',
    why: 'Der Start folgte bald auf einen anderen. Kupplung, Getriebe, Akku und Reifen können davon noch warm gewesen sein; das Kennzeichen nennt seinen Platz im Tag.',
    limits: ['Pause seit dem letzten Start unter'],
  },
  'not-restated': {
    name: 'Nicht umgerechnet',
    why: 'Eine Angabe fehlt, die das Umrechnen braucht, oder der Tag lag außerhalb dessen, wofür das Verfahren nachweislich gilt.',
    limits: [
      'Wind längs der Fahrt über',
      'oder Neigung über 50 m von mehr als',
      'oder Abweichung der Luftdichte vom Bezug über',
    ],
  },
};
