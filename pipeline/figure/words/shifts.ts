/** Gear changes on a figure over speed. */
import { catalogue } from '../../language.ts';
import type { NoShiftsReason } from '../../measurement/shifts.ts';

export const shiftWords = catalogue({
  en: {
    shift: 'shift',
    shiftLost: (lost: string) => `shift, ${lost} lost`,
    at: (speed: string) => `at ${speed}`,
    atLost: (speed: string, lost: string, uncertainty: string) =>
      `at ${speed}, ${lost} lost, ± ${uncertainty}`,
    shiftsOf: (name: string, shifts: readonly string[]) => `Shifts of ${name}: ${shifts.join('; ')}.`,
    notAllShown: (reason: string) => `Shifts are not all shown: ${reason}.`,
    mayBeUnseen: (lost: string) => `A shift that costs less than about ${lost} may go unseen.`,
    lostMeans:
      'Time lost: against a change of gear at the same speed that takes no time. Uncertainty: k = 2.',
    reasons: {
      'one-gear': 'the car has one gear, or none',
      'rate-too-low': 'fewer than 10 readings a second do not show a gear change',
      'held-values': 'rows that repeat a reading do not show a gear change',
      'speed-from-position': 'speed worked out from positions does not show a gear change',
      'noise-hides-them': 'the scatter of the readings hides gear changes',
      gap: 'readings are missing where a gear change may have been',
      'too-short': 'the run is too short for a gear change between two stretches of pull',
    } satisfies Record<NoShiftsReason, string>,
  },
  de: {
    shift: 'Schaltvorgang',
    shiftLost: lost => `Schalten, ${lost} Verlust`,
    at: speed => `bei ${speed}`,
    atLost: (speed, lost, uncertainty) => `bei ${speed}, ${lost} Verlust, ± ${uncertainty}`,
    shiftsOf: (name, shifts) => `Schaltvorgänge bei ${name}: ${shifts.join('; ')}.`,
    notAllShown: reason => `Nicht alle Schaltvorgänge sind gezeigt: ${reason}.`,
    mayBeUnseen: lost => `Ein Schaltvorgang, der weniger als rund ${lost} kostet, kann verborgen bleiben.`,
    lostMeans:
      'Verlorene Zeit: gegenüber einem Gangwechsel bei gleicher Geschwindigkeit, der keine Zeit braucht. Unsicherheit: k = 2.',
    reasons: {
      'one-gear': 'das Auto hat einen Gang oder keinen',
      'rate-too-low': 'weniger als 10 Messwerte je Sekunde zeigen keinen Gangwechsel',
      'held-values': 'Zeilen, die einen Messwert wiederholen, zeigen keinen Gangwechsel',
      'speed-from-position': 'aus Positionen errechnete Geschwindigkeit zeigt keinen Gangwechsel',
      'noise-hides-them': 'die Streuung der Messwerte verdeckt Gangwechsel',
      gap: 'wo ein Gangwechsel gelegen haben kann, fehlen Messwerte',
      'too-short': 'die Fahrt ist zu kurz für einen Gangwechsel zwischen zwei Zugphasen',
    },
  },
});
