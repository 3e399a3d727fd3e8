/** Words that several tables use. */
import { catalogue, counted } from '../../language.ts';
import type { StartRule } from '../../run/run.ts';

export const tableWords = catalogue({
  en: {
    attempt: 'Attempt',
    at: 'At',
    launchMethod: 'Launch method',
    direction: 'Direction',
    figure: 'Figure',
    best: 'Best',
    median: 'Median',
    uncertainty: 'Uncertainty',
    keptAttempts: 'Kept attempts',
    verdict: 'Verdict',
    remarks: 'Remarks',
    /** In the middle of a head. */
    clock: {
      'first-movement': 'first movement',
      'one-foot-rollout': 'one-foot rollout',
    } satisfies Record<StartRule, string>,
    /** `6 of 8` where two more were set aside. */
    keptOf: (kept: number, all: number) => `${kept} of ${all}`,
    medianOf: (n: number) => `Median of ${n}`,
    readings: (n: number) => `${n} ${counted(n, 'reading', 'readings')}`,
  },
  de: {
    attempt: 'Versuch',
    at: 'Uhrzeit',
    launchMethod: 'Startmethode',
    direction: 'Richtung',
    figure: 'Messgröße',
    best: 'Bestwert',
    median: 'Median',
    uncertainty: 'Unsicherheit',
    keptAttempts: 'Gewertete Versuche',
    verdict: 'Urteil',
    remarks: 'Bemerkungen',
    clock: { 'first-movement': 'der ersten Bewegung', 'one-foot-rollout': 'einem Fuß Anrollweg' },
    keptOf: (kept, all) => `${kept} von ${all}`,
    medianOf: n => `Median aus ${n}`,
    readings: n => `${n} ${counted(n, 'Ablesung', 'Ablesungen')}`,
  },
});
