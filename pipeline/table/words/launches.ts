/** What the day’s launches asked of the driveline. */
import { catalogue } from '../../language.ts';
import type { NoHeat, SlipHeat } from '../../measurement/launch-care.ts';

export const launchesWords = catalogue({
  en: {
    caption: (starts: number, givenUp: number) =>
      `Launches of the day: ${starts} standing starts, ${givenUp} of them given up`,
    launch: 'Launch',
    pause: 'Since the last launch',
    heat: 'Heat in the clutch, estimate',
    givenUp: 'given up',
    givenUpOf: (n: number) => `${n} given up`,
    none: 'No attempt began from rest.',
    byMethod: (methods: readonly string[]) => `By method: ${methods.join('; ')}.`,
    pauseNote: (limit: string) =>
      `Pauses run from first movement to first movement. A pause under ${limit} is flagged; the limit is our own.`,
    heatAssumes: (assumption: string) => `Heat assumes: ${assumption}.`,
    noHeatWhere: (reason: string) => `No heat is given where ${reason}.`,
    estimateNote:
      'An estimate of energy only. It does not tell how hot anything was, what it bears, or what its maker allows.',
    noMethod: 'no method noted',
    shortestPause: (pause: string) => `shortest pause ${pause}`,
    heatInAll: (heat: string) => `heat in all ${heat}`,
    about: (amount: string) => `about ${amount}`,
    assumption: {
      'engine-speed':
        'force on the car from its mass and acceleration, slip from the logged engine speed; level road, no resistance, tyres that do not slip',
      bounds:
        'the engine turned no faster while the clutch slipped than at the latest first gear change of the day; level road, no resistance; how fast it did turn is not known',
    } satisfies Record<SlipHeat['by'], string>,
    noHeat: {
      none: 'no clutch slips at a start',
      converter: 'a torque converter, not a clutch, takes up the start; its heat is not worked out',
      unknown: 'what takes up the start is not known',
      unbounded: 'neither engine speed nor a gear change bounds the speed at which the slip ended',
    } satisfies Record<NoHeat, string>,
  },
  de: {
    caption: (starts, givenUp) => `Starts des Tages: ${starts} aus dem Stand, davon ${givenUp} abgebrochen`,
    launch: 'Start',
    pause: 'Seit dem vorigen Start',
    heat: 'Wärme in der Kupplung, geschätzt',
    givenUp: 'abgebrochen',
    givenUpOf: n => `${n} abgebrochen`,
    none: 'Kein Versuch begann aus dem Stand.',
    byMethod: methods => `Nach Methode: ${methods.join('; ')}.`,
    pauseNote: limit =>
      `Pausen zählen von der ersten Bewegung bis zur nächsten ersten Bewegung. Eine Pause unter ${limit} wird vermerkt; die Grenze ist unsere eigene.`,
    heatAssumes: assumption => `Annahmen zur Wärme: ${assumption}.`,
    noHeatWhere: reason => `Keine Wärme ist angegeben, wo ${reason}.`,
    estimateNote:
      'Nur eine Schätzung der Energie. Sie sagt nicht, wie heiß etwas wurde, was es aushält oder was der Hersteller erlaubt.',
    noMethod: 'ohne notierte Methode',
    shortestPause: pause => `kürzeste Pause ${pause}`,
    heatInAll: heat => `Wärme insgesamt ${heat}`,
    about: amount => `rund ${amount}`,
    assumption: {
      'engine-speed':
        'Kraft auf das Auto aus Masse und Beschleunigung, Schlupf aus der aufgezeichneten Drehzahl; ebene Straße, kein Fahrwiderstand, Reifen ohne Schlupf',
      bounds:
        'der Motor drehte bei schleifender Kupplung nicht schneller als beim spätesten ersten Gangwechsel des Tages; ebene Straße, kein Fahrwiderstand; wie schnell er tatsächlich drehte, ist nicht bekannt',
    },
    noHeat: {
      none: 'beim Start keine Kupplung schleift',
      converter:
        'ein Drehmomentwandler statt einer Kupplung den Start übernimmt; dessen Wärme wird nicht berechnet',
      unknown: 'nicht bekannt ist, was den Start übernimmt',
      unbounded: 'weder Drehzahl noch Gangwechsel die Geschwindigkeit eingrenzen, bei der der Schlupf endete',
    },
  },
});
