/** A road plan: places in metres from the start, the sentence it comes to, and what it assumes. */
import { catalogue, counted, listed } from '../../language.ts';
import type { CarForPlan } from '../../road/plan-car.ts';

export const roadPlanWords = catalogue({
  en: {
    caption: (car: string, road: string, direction: string, wet: boolean) =>
      `${car} on ${road}, ${direction}, ${wet ? 'wet' : 'dry'}: places in metres from the start`,
    speed: 'Speed',
    reachedBy: 'Reached by',
    brakeBy: 'Must brake by',
    stoppedBy: 'Stopped by',
    left: 'Left',
    noRoom: 'no room',
    placesNote:
      'Reached by and stopped by: the latest; must brake by: the earliest, and with the reserve kept. ± is of the stopping place.',
    brakeNote:
      'Must brake by is where the driver must have decided: reacting, the car pulling on, comes after it. Stopped by: if the driver decides as soon as the speed is reached.',
    estimated: (from: CarForPlan['decelerationFrom']) =>
      `Acceleration is estimated, braking ${from === 'measured' ? 'measured on the day' : from}.`,
    measuredUpTo: (speed: string, from: CarForPlan['decelerationFrom']) =>
      `Acceleration is measured on the day up to ${speed} and estimated beyond, braking ${from === 'measured' ? 'measured on the day' : from}.`,
    noRoomAdverse: (reserve: string, speed: string) =>
      `No room at the adverse end of the assumptions with ${reserve} in reserve; ${speed} in their middle.`,
    noRoomAtAll: (reserve: string) => `No room with ${reserve} in reserve.`,
    roomFor: (slow: string, reserve: string, middle: string) =>
      `Room for ${slow} with ${reserve} in reserve, every assumption at its adverse end; ${middle} in their middle.`,
    carSetsLimit: 'The car sets the limit, not the road.',
    carGetsNoFaster: 'At the adverse end the car gets no faster.',
    lastPoint: (place: string, speed: string) =>
      `Last point to brake for it: ${place}; the brake then comes on at ${speed}.`,
    /** On the card. */
    title: (car: string) => `Road plan: ${car}`,
    caution: 'Caution.',
    whatItAssumes: 'What it assumes',
  },
  de: {
    caption: (car, road, direction, wet) =>
      `${car} auf ${road}, ${direction}, ${wet ? 'nass' : 'trocken'}: Stellen in Metern ab dem Start`,
    speed: 'Tempo',
    reachedBy: 'Erreicht bis',
    brakeBy: 'Bremsen bis',
    stoppedBy: 'Steht bis',
    left: 'Rest',
    noRoom: 'kein Platz',
    placesNote:
      'Erreicht bis und steht bis: spätestens; bremsen bis: frühestens und mit eingehaltener Reserve. ± gilt für die Stelle des Stillstands.',
    brakeNote:
      'Bremsen bis ist die Stelle, an der die Entscheidung gefallen sein muss: Die Reaktion, bei weiter ziehendem Auto, kommt danach. Steht bis: wenn die Entscheidung fällt, sobald das Tempo erreicht ist.',
    estimated: from =>
      `Die Beschleunigung ist geschätzt, die Bremsung ${{ measured: 'am Tag gemessen', stated: 'vorgegeben', estimated: 'geschätzt' }[from]}.`,
    measuredUpTo: (speed, from) =>
      `Die Beschleunigung ist bis ${speed} am Tag gemessen und darüber geschätzt, die Bremsung ${{ measured: 'am Tag gemessen', stated: 'vorgegeben', estimated: 'geschätzt' }[from]}.`,
    noRoomAdverse: (reserve, speed) =>
      `Kein Platz am ungünstigen Ende der Annahmen mit ${reserve} Reserve; ${speed} in ihrer Mitte.`,
    noRoomAtAll: reserve => `Kein Platz mit ${reserve} Reserve.`,
    roomFor: (slow, reserve, middle) =>
      `Platz für ${slow} mit ${reserve} Reserve, jede Annahme an ihrem ungünstigen Ende; ${middle} in ihrer Mitte.`,
    carSetsLimit: 'Die Grenze setzt das Auto, nicht die Strecke.',
    carGetsNoFaster: 'Am ungünstigen Ende wird das Auto nicht schneller.',
    lastPoint: (place, speed) =>
      `Letzte Stelle, um dafür zu bremsen: ${place}; die Bremse greift dann bei ${speed}.`,
    title: car => `Streckenplan: ${car}`,
    caution: 'Vorsicht.',
    whatItAssumes: 'Die Annahmen',
  },
});

export const planAssumptionWords = catalogue({
  en: {
    road: 'Road',
    surface: 'Surface',
    car: 'Car',
    loadAndTow: 'Load and tow',
    start: 'Start',
    acceleration: 'Acceleration',
    deceleration: 'Deceleration',
    brakes: 'Brakes',
    reaction: 'Reaction',
    air: 'Air',
    wind: 'Wind',
    reserve: 'Reserve',
    massAsTested: (mass: string) => `${mass} as tested`,
    massKerb: (mass: string, aboard: string) => `${mass}: the maker’s and ${aboard} aboard`,
    guessed: (what: readonly ('drag area' | 'rolling resistance')[]) => `${listed(what, 'en')} guessed`,
    notAbove: (speed: string) => `not above the maker’s ${speed} unless measured`,
    load: (load: string, tow: string, dragArea: string | undefined) =>
      `${load} loaded, ${tow} towed${dragArea === undefined ? '' : ` with ${dragArea} of drag area and no brakes`}; brakes give the same force`,
    standing: 'standing',
    rolling: (speed: string) => `rolling over the start at ${speed}`,
    inFull: (time: string) => `in full after ${time}, rising evenly (assumed)`,
    reacting: (time: string, pulls: boolean) =>
      `${time}; the car ${pulls ? 'pulls on' : 'holds its speed'} meanwhile`,
    density: (density: string, measured: boolean) =>
      `${density} ${measured ? 'from the day’s readings' : '(20 °C, 100 kPa)'}`,
    still: 'still',
    windAlong: (wind: string, against: boolean) => `${wind} ${against ? 'against' : 'behind'} the car`,
    leftOver: (reserve: string) => `${reserve} left over after the stop`,
    takenAsLevel: 'taken as level: its slope is not written down',
    slope: (surveyed: boolean, slope: string) =>
      `${surveyed ? 'surveyed' : 'one slope throughout'}, ${slope} on the whole`,
    dry: 'dry',
    dryButWetRuns: 'dry; runs on a wet road are counted as they were',
    wetFactor: (factor: string) => `wet: ${factor} of the dry road’s grip (common practice, no source)`,
    wetMeasured: 'wet, as measured',
    pullEstimated:
      'estimated from power, mass and driven wheels, with wide bounds; measured starts replace it',
    pullMeasured: (runs: number, percent: string, speed: string) =>
      `measured: ${runs === 1 ? 'one start' : `the mean of ${runs} starts`}, ±\u00a0${percent} of distance, up to ${speed}; estimated beyond`,
    decelerationStated: (value: string) => `${value}, as stated by whoever made the plan`,
    decelerationEstimated: (low: string, high: string) =>
      `estimated, ${low} to ${high}: from what UN R13-H asks of a new car to good dry asphalt; measured stops replace it`,
    decelerationMeasured: (value: string, stops: number, speed: string) =>
      `measured: ${value}, the lowest of ${stops === 1 ? 'one stop' : `${stops} stops`} from ${speed} less its uncertainty; from higher speeds up to 10\u00a0% weaker`,
  },
  de: {
    road: 'Strecke',
    surface: 'Fahrbahn',
    car: 'Auto',
    loadAndTow: 'Last und Anhänger',
    start: 'Startart',
    acceleration: 'Beschleunigung',
    deceleration: 'Verzögerung',
    brakes: 'Bremsen',
    reaction: 'Reaktion',
    air: 'Luft',
    wind: 'Wind',
    reserve: 'Reserve',
    massAsTested: mass => `${mass} Testgewicht`,
    massKerb: (mass, aboard) => `${mass}: Leergewicht laut Hersteller und ${aboard} an Bord`,
    guessed: what =>
      `${listed(
        what.map(
          each => ({ 'drag area': 'Luftwiderstandsfläche', 'rolling resistance': 'Rollwiderstand' })[each],
        ),
        'de',
      )} angenommen`,
    notAbove: speed => `nicht über ${speed} laut Hersteller, wenn nicht gemessen`,
    load: (load, tow, dragArea) =>
      `${load} zugeladen, ${tow} gezogen${dragArea === undefined ? '' : ` mit ${dragArea} Luftwiderstandsfläche und ungebremst`}; die Bremsen geben dieselbe Kraft`,
    standing: 'aus dem Stand',
    rolling: speed => `rollend mit ${speed} über den Start`,
    inFull: time => `voll nach ${time}, gleichmäßig ansteigend (angenommen)`,
    reacting: (time, pulls) =>
      `${time}; das Auto ${pulls ? 'zieht' : 'hält'} währenddessen ${pulls ? 'weiter' : 'sein Tempo'}`,
    density: (density, measured) =>
      `${density} ${measured ? 'aus den Ablesungen des Tages' : '(20 °C, 100 kPa)'}`,
    still: 'windstill',
    windAlong: (wind, against) => `${wind} ${against ? 'Gegenwind' : 'Rückenwind'}`,
    leftOver: reserve => `${reserve} bleiben nach dem Stillstand übrig`,
    takenAsLevel: 'als eben angenommen: Die Neigung ist nicht notiert',
    slope: (surveyed, slope) => `${surveyed ? 'vermessen' : 'durchgehend eine Neigung'}, ${slope} im Ganzen`,
    dry: 'trocken',
    dryButWetRuns: 'trocken; Fahrten auf nasser Strecke zählen, wie sie waren',
    wetFactor: factor => `nass: ${factor} der Haftung auf trockener Strecke (gängige Praxis, ohne Quelle)`,
    wetMeasured: 'nass, wie gemessen',
    pullEstimated:
      'geschätzt aus Leistung, Masse und angetriebenen Rädern, mit weiten Grenzen; gemessene Starts ersetzen sie',
    pullMeasured: (runs, percent, speed) =>
      `gemessen: ${runs === 1 ? 'ein Start' : `Mittel aus ${runs} Starts`}, ±\u00a0${percent} des Weges, bis ${speed}; darüber geschätzt`,
    decelerationStated: value => `${value}, vorgegeben von dem, der den Plan gemacht hat`,
    decelerationEstimated: (low, high) =>
      `geschätzt, ${low} bis ${high}: von dem, was UN R13-H von einem neuen Auto verlangt, bis zu gutem trockenem Asphalt; gemessene Bremsungen ersetzen sie`,
    decelerationMeasured: (value, stops, speed) =>
      `gemessen: ${value}, die niedrigste aus ${counted(stops, 'einer Bremsung', `${stops} Bremsungen`)} aus ${speed} abzüglich ihrer Unsicherheit; aus höherem Tempo bis zu 10\u00a0% schwächer`,
  },
});
