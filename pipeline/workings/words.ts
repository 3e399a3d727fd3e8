/** Words of workings: facts, readings, steps, budgets. Numbers come in printed. */
import type { Condition } from '../conditions/gain.ts';
import type { RestatedSource } from '../conditions/restate.ts';
import { catalogue, listed } from '../language.ts';
import type { MannerName } from '../measurement/onset-average.ts';
import type { TopFit } from '../measurement/top-speed.ts';
import type { SpeedUnit } from '../speed-unit.ts';

export const workingsWords = catalogue({
  en: {
    title: (attempt: number) => `Workings of attempt ${attempt}`,
    description: (attempt: number, test: string) =>
      `Every figure of attempt ${attempt} of “${test}”, from the readings of its log to the printed number.`,
    noUncertainty: 'No uncertainty is stated for this figure.',
    // The attempt and its log.
    attempt: 'Attempt',
    ofTheDay: (number: number, at: string) => `${number} of the day, at ${at}`,
    launchMethod: 'Launch method',
    direction: 'Direction',
    counts: 'Counts',
    kept: 'kept',
    setAside: (reason: string) => `set aside: ${reason}`,
    noted: 'Noted',
    flags: 'Flags',
    none: 'none',
    conditions: 'Conditions',
    log: 'Log',
    lines: (log: string, from: number, to: number) => `${log}, lines ${from} to ${to}`,
    hash: 'SHA-256 of the log',
    readings: 'Readings',
    speedFrom: {
      recorded: 'speed as the receiver recorded it',
      'derived-from-position': 'speed worked out from positions',
    },
    scatter: 'Scatter of one reading',
    noiseFrom: {
      standing: 'seen while standing',
      moving: 'seen while moving',
      assumed: 'assumed, because the log does not show it',
    },
    receiver: 'Receiver, as its maker states',
    noAccuracy: 'no accuracy stated',
    workedOutBy: 'Worked out by',
    /** `Evenground 0.1.0, commit 0123456789ab and changes since`. */
    program: (version: string) => `Evenground ${version}`,
    readAt: (at: string) => `read at ${at}`,
    air: 'air',
    pressure: 'pressure',
    humidity: 'humidity',
    density: 'density',
    headwind: 'headwind',
    crosswind: 'crosswind',
    slope: 'slope',
    surface: 'surface',
    // The start.
    startReadings: 'Readings around the start',
    firstMovement: (at: string, uncertainty: string) =>
      `First movement, by the fit of the whole rise: ${at}, standard uncertainty ${uncertainty}.`,
    firstFoot: (at: string, uncertainty: string, after: string, speed: string) =>
      `End of the first foot, by the same fit: ${at}, standard uncertainty ${uncertainty}; ${after} after first movement, at ${speed}.`,
    ruler: (from: number, to: number, sum: string, off: string) =>
      `By hand: a straight line through lines ${from} and ${to}, drawn back to rest, is ${sum}, ${off} from first movement. A ruler finds no slow beginning: it puts the start late and makes times short.`,
    plotFirstMovement: 'first movement',
    plotOneFoot: 'one foot',
    plotSeconds: 'seconds from first movement',
    plotAlt: (readings: number, foot: boolean, ruler: boolean) =>
      `Speed around the start: ${readings} readings as dots, the fitted curve through them, first movement with its band of uncertainty${foot ? ', the end of the first foot' : ''}${ruler ? ', and a dashed straight line through two readings' : ''}.`,
    // The stop.
    start: 'Start',
    comingToRest: 'Coming to rest',
    stopPublished: (at: string, uncertainty: string) =>
      `Rest, from the fit of the end of the stop: ${at}, standard uncertainty ${uncertainty}.`,
    plotRest: 'rest',
    plotSecondsToRest: 'seconds from rest',
    plotStopAlt: (readings: number) =>
      `Speed around the end of the stop: ${readings} readings as dots, the fitted curve through them, and rest with its band of uncertainty.`,
    // Fits.
    parameter: 'Parameter',
    symbol: 'Symbol',
    value: 'Value',
    fit: {
      start: {
        caption: (answers: number, from: number, to: number, manner: string) =>
          `The fit of the start: the likeliest of ${answers} answers, from the readings of lines ${from} to ${to}. Manner of the rise: ${manner}`,
        rest: 'Leaves rest at',
        rise: 'Acceleration rises for',
        full: 'Full acceleration',
        formula: (creeping: boolean, metres: string, unit: string) =>
          `The curve, with R(x) = x (f + x (g ÷ 2 + x (h ÷ 3 + x j ÷ 4))): speed is ${creeping ? 'w' : '0'} before T. While acceleration rises, with u = (t − T) ÷ r, it is ${metres} a r R(u)${creeping ? ' + w' : ''} in ${unit}. After that, with s = t − T − r, it is ${metres} (a (r R(1) + s) + b s² ÷ 2 + c s³ ÷ 6)${creeping ? ' + w' : ''}.`,
      },
      stop: {
        caption: (answers: number, from: number, to: number, manner: string) =>
          `The fit of the stop, seen backwards from rest: the likeliest of ${answers} answers, from the readings of lines ${from} to ${to}. Manner of the rise: ${manner}`,
        rest: 'Comes to rest at',
        rise: 'Deceleration rises for',
        full: 'Full deceleration',
        formula: (_creeping: boolean, metres: string, unit: string): string =>
          `The curve, with R(x) = x (f + x (g ÷ 2 + x (h ÷ 3 + x j ÷ 4))): speed is 0 after T. While deceleration rises, with u = (T − t) ÷ r, it is ${metres} a r R(u) in ${unit}. Before that, with s = T − t − r, it is ${metres} (a (r R(1) + s) + b s² ÷ 2 + c s³ ÷ 6).`,
      },
      change: 'Its change from then on',
      changeOfThat: 'The change of that',
      share: (power: number) =>
        ['Share that is there at once', 'Share times u', 'Share times u²', 'Share times u³'][power]!,
      creep: 'Speed of the creep before',
      tried: (line: number, where: string, curve: string, reading: string) =>
        `Tried at line ${line}: ${where}, speed of the curve ${curve}; the log reads ${reading}.`,
      average: (answers: number, at: string, off: string, manners: string, rise: string, spread: string) =>
        `Published is not this answer alone but the average of all ${answers}, each weighed by how well the readings bear it out, within what the readings at rest allow: ${at}, ${off} from this one. Shares of the manners: ${manners}; the rise takes ${rise}, standard deviation ${spread}.`,
    },
    manners: {
      even: 'even',
      smooth: 'smooth',
      'slow to begin': 'slow to begin',
      'quick to begin': 'quick to begin',
      'a fifth at once': 'a fifth at once',
      'a third at once': 'a third at once',
      'half at once': 'half at once',
      'a third at once, then slow': 'a third at once, then slow',
      'at once': 'at once',
    } satisfies Record<MannerName, string>,
    // Readings.
    line: 'Line',
    time: 'Time',
    speed: 'Speed',
    distance: 'Distance',
    is: 'Is',
    before: 'before',
    after: 'after',
    last: 'last',
    // Budgets.
    items: {
      start: 'First movement',
      rollout: 'End of the first foot',
      noise: 'Scatter of readings',
      interpolation: 'Passing a value between readings',
      sampling: 'What lies between readings',
      stop: 'Coming to rest',
      receiver: 'Accuracy stated for the receiver',
      'held-values': 'Repeated readings',
      gap: 'Missing readings',
      lag: 'Lag of the receiver’s filter',
      position: 'Speed worked out from positions',
      jitter: 'Scatter of time stamps',
    },
    root: 'Root of the sum of squares',
    timesAMetre: (share: string) => `Times ${share} a metre`,
    expanded: (k: number) => `Expanded, k = ${k}`,
    budgetCaption: (name: string, ofLength: boolean) =>
      `Uncertainty of ${name}: standard uncertainties${ofLength ? ' of the length between the two speeds' : ''}`,
    item: 'Item',
    standard: 'Standard uncertainty',
    road: 'Road in the uncertainty',
    roadSaid:
      'part of what was measured, and so no item of a measured figure; restated figures have an item for its slope',
    // Restated.
    restatedCaption: (name: string) =>
      `Uncertainty of ${name}, restated for a level road in still reference air: standard uncertainties`,
    restatedItems: {
      measured: 'The measured time',
      mass: 'Mass of the car',
      'drag-area': 'Drag area',
      wind: 'Wind along the run',
      slope: 'Slope of the road along the run',
      density: 'Density of the air',
      'rotating-mass': 'What turns with the engine',
      power: 'Power of the engine in this air',
      launch: 'How the launch would have gone',
      acceleration: 'Scatter of the acceleration',
    } satisfies Record<RestatedSource, string>,
    changedBy: {
      slope: (change: string) => `${change} by slope`,
      wind: (change: string) => `${change} by wind`,
      air: (change: string) => `${change} by air`,
    } satisfies Record<Condition, (change: string) => string>,
    restatedSum: (time: string, changes: readonly string[]) =>
      `Restated: ${time}, which is the measured time with ${listed(changes, 'en')}.`,
    restatedRoad:
      'The measured figure is that of this road and has no item for it; the restated one is for a level road and has.',
    // Steps.
    readingsAround: (what: string) => `Readings around ${what}`,
    straight: (before: number, after: number, sum: string) =>
      `Straight line between lines ${before} and ${after}: ${sum}.`,
    parabola: (at: string, off: string, count: number, from: number, to: number) =>
      `Published: ${at}, ${off} from that line, by a parabola that least squares put through the ${count} readings of lines ${from} to ${to}.`,
    parabolaCaption: (speed: string, from: number, to: number) =>
      `The parabola around ${speed}, lines ${from} to ${to}`,
    parabolaOrigin: 'Counted from',
    parabolaTerm: (power: number) =>
      ['Speed there', 'Its rise a second', 'Times the square of the seconds'][power]!,
    rootOf: 'root of',
    parabolaFormula: (unit: string, speed: string, root: string, since: string, at: string) =>
      `Speed = a + b t + c t² in ${unit}, with t in seconds since T. It passes v = ${speed} at t = ${root} = ${since}; T + t = ${at}.`,
    brakes: {
      caption: (speed: string, answers: number, from: number, to: number) =>
        `The brakes as they come on around ${speed}: the likeliest of ${answers} answers, from the readings of lines ${from} to ${to}`,
      onset: 'Brakes come on at',
      rise: 'Deceleration rises for',
      level: 'Speed there',
      slope: 'Its change a second without the brakes',
      full: 'What the brakes take off a second, in full',
      formula: (unit: string) =>
        `Speed = a + b x − d D in ${unit}, with x in seconds since T; D is x² ÷ (2 r) while x is less than r, and x − r ÷ 2 after that.`,
      passes: (speed: string, root: string, since: string, at: string) =>
        `It passes v = ${speed} at x = ${root} = ${since}; T + x = ${at}.`,
      passedBefore: (speed: string) =>
        `There the car is already slower than ${speed}, and only what is braked counts: it is passed at T.`,
      average: (answers: number, at: string, off: string) =>
        `Published is not this answer alone but the average of all ${answers}, each weighed by how well the readings bear it out: ${at}, ${off} from this one.`,
    },
    straightPublished:
      'Published: this straight line, because no curve through more readings agreed with them.',
    bend: (at: string, off: string) =>
      `Published: ${at}, ${off} from that line, by a fit of the bend that the readings go through here.`,
    tapeLaid: (at: string, speed: string, line: number, lead: string, intervals: number, before: number) =>
      `The tape is laid at the end of the first foot, ${at}, at ${speed}. To the next reading, line ${line}, half the sum of the two speeds times the time between them: ${lead}. ${intervals} intervals, each half the sum of its two speeds (in km/h, divided by 3.6) times its length, then lead to line ${before}.`,
    lineReadings: (name: string) =>
      `${name}: readings around the line, with the distance since the end of the first foot`,
    tapeReads: (distance: string, before: number, after: number, sum: string) =>
      `The tape has to read ${distance}. Straight line between lines ${before} and ${after}: ${sum}.`,
    linePublished: (at: string, off: string, speed: string) =>
      `Published, with speed and not distance taken for straight between two readings: ${at}, ${off} from that line; there the speed is ${speed}.`,
    restReadings: (name: string) =>
      `${name}: readings around rest, with the distance since the speed was passed`,
    rest: (at: string, last: string) =>
      `The distance grows by half the sum of two neighbouring speeds times the time between them. Rest comes at ${at}, by a fit of the end of the stop; from the last moving reading half its speed times the time left is ${last}.`,
    covered: (length: string) => `Between the two speeds the car covered ${length}.`,
    steepest: 'The stretch of steepest rise',
    aroundHighest: 'Readings around the highest',
    highest: {
      caption: (answers: number, from: number, to: number) =>
        `The curve around the highest: the likeliest of ${answers}, from the readings of lines ${from} to ${to}`,
      origin: {
        parabola: 'Counted from',
        point: 'Comes to a point at',
        brakes: 'Brakes begin at',
      } satisfies Record<TopFit['shape'], string>,
      level: 'Speed there',
      second: {
        parabola: 'Its rise a second',
        point: 'Its rise a second before',
        brakes: 'Its rise a second before',
      } satisfies Record<TopFit['shape'], string>,
      third: {
        parabola: 'Times the square of the seconds',
        point: 'Its rise a second after',
        brakes: 'Times the square of the seconds after',
      } satisfies Record<TopFit['shape'], string>,
      formula: {
        parabola: (unit: string) => `Speed = a + b x + c x² in ${unit}, with x in seconds since T.`,
        point: (unit: string) =>
          `Speed = a + b x before T and a + c x after it in ${unit}, with x in seconds since T.`,
        brakes: (unit: string) =>
          `Speed = a + b x before T and a + c x² after it in ${unit}, with x in seconds since T.`,
      } satisfies Record<TopFit['shape'], (unit: string) => string>,
      top: (since: string, speed: string) =>
        `Taken at its vertex or point, and never beyond the readings it was made from: x = ${since}, ${speed}.`,
      average: (answers: number, speed: string, off: string) =>
        `Published is not this curve alone but the average over all ${answers}, each weighed by how well the readings bear it out: ${speed}, ${off} from this one.`,
    },
    // The last line.
    printed: (printed: string) => `Printed: ${printed}.`,
    clock: (sum: string) => `Clock: ${sum}.`,
    speedAtLine: (speed: string) => `Speed at the line: ${speed}.`,
    between: (sum: string) => `Between the two: ${sum}.`,
    distanceSum: (sum: string) => `Distance: ${sum}.`,
    /** Twice the square of the next, which is what of the unit makes a metre a second. */
    mfddDivisors: { 'km/h': '25.92', mph: '10.00777' } as Record<SpeedUnit, string>,
    divisors: { 'km/h': '3.6', mph: '2.236936' } as Record<SpeedUnit, string>,
    peak: (sum: string, fitted: string) =>
      `By hand, last less first: ${sum}. By least squares through all of them: ${fitted}.`,
    top: (middle: string, published: string, off: string) =>
      `By hand, the greatest middle one of three neighbouring readings: ${middle}. Published, the top of the curves fitted around it: ${published}, ${off} from it.`,
  },
  de: {
    title: attempt => `Rechenweg von Versuch ${attempt}`,
    description: (attempt, test) =>
      `Jeder Wert von Versuch ${attempt} aus „${test}“, von den Messwerten seines Protokolls bis zur gedruckten Zahl.`,
    noUncertainty: 'Für diesen Wert ist keine Unsicherheit angegeben.',
    attempt: 'Versuch',
    ofTheDay: (number, at) => `${number} des Tages, um ${at}`,
    launchMethod: 'Startmethode',
    direction: 'Richtung',
    counts: 'Zählt',
    kept: 'gewertet',
    setAside: reason => `nicht gewertet: ${reason}`,
    noted: 'Notiert',
    flags: 'Kennzeichen',
    none: 'keine',
    conditions: 'Bedingungen',
    log: 'Protokoll',
    lines: (log, from, to) => `${log}, Zeilen ${from} bis ${to}`,
    hash: 'SHA-256 des Protokolls',
    readings: 'Messwerte',
    speedFrom: {
      recorded: 'Geschwindigkeit, wie der Empfänger sie aufzeichnete',
      'derived-from-position': 'Geschwindigkeit aus Positionen berechnet',
    },
    scatter: 'Streuung eines Messwerts',
    noiseFrom: {
      standing: 'im Stand beobachtet',
      moving: 'während der Fahrt beobachtet',
      assumed: 'angenommen, weil das Protokoll sie nicht zeigt',
    },
    receiver: 'Empfänger, nach Angabe des Herstellers',
    noAccuracy: 'keine Genauigkeit angegeben',
    workedOutBy: 'Berechnet mit',
    program: version =>
      `Evenground ${version.replace('commit', 'Stand').replace('and changes since', 'mit Änderungen danach')}`,
    readAt: at => `abgelesen um ${at}`,
    air: 'Luft',
    pressure: 'Luftdruck',
    humidity: 'Feuchte',
    density: 'Dichte',
    headwind: 'Gegenwind',
    crosswind: 'Seitenwind',
    slope: 'Neigung',
    surface: 'Fahrbahn',
    startReadings: 'Messwerte um den Start',
    firstMovement: (at, uncertainty) =>
      `Erste Bewegung, aus der Anpassung an den ganzen Anstieg: ${at}, Standardunsicherheit ${uncertainty}.`,
    firstFoot: (at, uncertainty, after, speed) =>
      `Ende des ersten Fußes, aus derselben Anpassung: ${at}, Standardunsicherheit ${uncertainty}; ${after} nach der ersten Bewegung, bei ${speed}.`,
    ruler: (from, to, sum, off) =>
      `Von Hand: Eine Gerade durch die Zeilen ${from} und ${to}, bis zum Stand zurückgezogen, ergibt ${sum}, ${off} von der ersten Bewegung. Ein Lineal findet keinen langsamen Beginn: Es setzt den Start zu spät und macht Zeiten kurz.`,
    plotFirstMovement: 'erste Bewegung',
    plotOneFoot: 'ein Fuß',
    plotSeconds: 'Sekunden ab der ersten Bewegung',
    plotAlt: (readings, foot, ruler) =>
      `Geschwindigkeit um den Start: ${readings} Messwerte als Punkte, die angepasste Kurve durch sie, die erste Bewegung mit ihrem Band der Unsicherheit${foot ? ', das Ende des ersten Fußes' : ''}${ruler ? ' und eine gestrichelte Gerade durch zwei Messwerte' : ''}.`,
    start: 'Start',
    comingToRest: 'Zum Stillstand',
    stopPublished: (at, uncertainty) =>
      `Stillstand, aus der Anpassung an das Ende der Bremsung: ${at}, Standardunsicherheit ${uncertainty}.`,
    plotRest: 'Stillstand',
    plotSecondsToRest: 'Sekunden ab dem Stillstand',
    plotStopAlt: readings =>
      `Geschwindigkeit um das Ende der Bremsung: ${readings} Messwerte als Punkte, die angepasste Kurve durch sie und der Stillstand mit seinem Band der Unsicherheit.`,
    parameter: 'Parameter',
    symbol: 'Zeichen',
    value: 'Wert',
    fit: {
      start: {
        caption: (answers, from, to, manner) =>
          `Die Anpassung an den Start: die wahrscheinlichste von ${answers} Antworten, aus den Messwerten der Zeilen ${from} bis ${to}. Art des Anstiegs: ${manner}`,
        rest: 'Verlässt den Stillstand bei',
        rise: 'Beschleunigung steigt an über',
        full: 'Volle Beschleunigung',
        formula: (creeping, metres, unit) =>
          `Die Kurve, mit R(x) = x (f + x (g ÷ 2 + x (h ÷ 3 + x j ÷ 4))): Vor T ist die Geschwindigkeit ${creeping ? 'w' : '0'}. Solange die Beschleunigung ansteigt, mit u = (t − T) ÷ r, ist sie ${metres} a r R(u)${creeping ? ' + w' : ''} in ${unit}. Danach, mit s = t − T − r, ist sie ${metres} (a (r R(1) + s) + b s² ÷ 2 + c s³ ÷ 6)${creeping ? ' + w' : ''}.`,
      },
      stop: {
        caption: (answers, from, to, manner) =>
          `Die Anpassung an das Ende der Bremsung, vom Stillstand aus rückwärts gesehen: die wahrscheinlichste von ${answers} Antworten, aus den Messwerten der Zeilen ${from} bis ${to}. Art des Anstiegs: ${manner}`,
        rest: 'Kommt zum Stillstand bei',
        rise: 'Verzögerung steigt an über',
        full: 'Volle Verzögerung',
        formula: (_creeping, metres, unit) =>
          `Die Kurve, mit R(x) = x (f + x (g ÷ 2 + x (h ÷ 3 + x j ÷ 4))): Nach T ist die Geschwindigkeit 0. Solange die Verzögerung ansteigt, mit u = (T − t) ÷ r, ist sie ${metres} a r R(u) in ${unit}. Davor, mit s = T − t − r, ist sie ${metres} (a (r R(1) + s) + b s² ÷ 2 + c s³ ÷ 6).`,
      },
      change: 'Ihre Änderung von da an',
      changeOfThat: 'Deren Änderung',
      share: power => ['Anteil, der sofort da ist', 'Anteil mal u', 'Anteil mal u²', 'Anteil mal u³'][power]!,
      creep: 'Geschwindigkeit des Kriechens davor',
      tried: (line, where, curve, reading) =>
        `Erprobt an Zeile ${line}: ${where}, Geschwindigkeit der Kurve ${curve}; im Protokoll steht ${reading}.`,
      average: (answers, at, off, manners, rise, spread) =>
        `Veröffentlicht ist nicht diese Antwort allein, sondern das Mittel aller ${answers}, jede danach gewichtet, wie gut die Messwerte sie stützen, und in den Grenzen, die die Messwerte im Stand lassen: ${at}, ${off} von dieser. Anteile der Arten: ${manners}; der Anstieg dauert ${rise}, Standardabweichung ${spread}.`,
    },
    manners: {
      even: 'gleichmäßig',
      smooth: 'weich',
      'slow to begin': 'langsam beginnend',
      'quick to begin': 'schnell beginnend',
      'a fifth at once': 'ein Fünftel sofort',
      'a third at once': 'ein Drittel sofort',
      'half at once': 'die Hälfte sofort',
      'a third at once, then slow': 'ein Drittel sofort, dann langsam',
      'at once': 'alles sofort',
    },
    line: 'Zeile',
    time: 'Zeit',
    /** Short, so that the table fits a telephone. */
    speed: 'Tempo',
    distance: 'Strecke',
    is: 'Ist',
    before: 'davor',
    after: 'danach',
    last: 'letzter',
    items: {
      start: 'Erste Bewegung',
      rollout: 'Ende des ersten Fußes',
      noise: 'Streuung der Messwerte',
      interpolation: 'Durchgang zwischen zwei Messwerten',
      sampling: 'Was zwischen den Messwerten liegt',
      stop: 'Stillstand',
      receiver: 'Angegebene Genauigkeit des Empfängers',
      'held-values': 'Wiederholte Messwerte',
      gap: 'Fehlende Messwerte',
      lag: 'Verzögerung durch das Filter',
      position: 'Geschwindigkeit aus Positionen',
      jitter: 'Streuung der Zeitstempel',
    },
    root: 'Wurzel aus der Summe der Quadrate',
    timesAMetre: share => `Mal ${share} je Meter`,
    expanded: k => `Erweitert, k = ${k}`,
    budgetCaption: (name, ofLength) =>
      `Unsicherheit von ${name}: Standardunsicherheiten${ofLength ? ' der Länge zwischen den beiden Geschwindigkeiten' : ''}`,
    item: 'Posten',
    standard: 'Standardunsicherheit',
    road: 'Strecke in der Unsicherheit',
    roadSaid:
      'Teil dessen, was gemessen wurde, und deshalb kein Posten eines gemessenen Werts; umgerechnete Werte haben einen Posten für ihre Neigung',
    restatedCaption: name =>
      `Unsicherheit von ${name}, umgerechnet auf ebene Strecke und ruhende Bezugsluft: Standardunsicherheiten`,
    restatedItems: {
      measured: 'Die gemessene Zeit',
      mass: 'Masse des Autos',
      'drag-area': 'Luftwiderstandsfläche',
      wind: 'Wind längs der Fahrt',
      slope: 'Neigung der Strecke längs der Fahrt',
      density: 'Dichte der Luft',
      'rotating-mass': 'Was sich mit dem Motor dreht',
      power: 'Leistung des Motors in dieser Luft',
      launch: 'Wie der Start verlaufen wäre',
      acceleration: 'Streuung der Beschleunigung',
    },
    changedBy: {
      slope: change => `${change} durch Neigung`,
      wind: change => `${change} durch Wind`,
      air: change => `${change} durch Luft`,
    },
    restatedSum: (time, changes) =>
      `Umgerechnet: ${time}, das ist die gemessene Zeit mit ${listed(changes, 'de')}.`,
    restatedRoad:
      'Der gemessene Wert ist der dieser Strecke und hat keinen Posten für sie; der umgerechnete gilt für eine ebene und hat einen.',
    readingsAround: what => `Messwerte um ${what}`,
    straight: (before, after, sum) => `Gerade zwischen den Zeilen ${before} und ${after}: ${sum}.`,
    parabola: (at, off, count, from, to) =>
      `Veröffentlicht: ${at}, ${off} von dieser Geraden, aus einer Parabel, nach kleinsten Quadraten durch die ${count} Messwerte der Zeilen ${from} bis ${to} gelegt.`,
    parabolaCaption: (speed, from, to) => `Die Parabel um ${speed}, Zeilen ${from} bis ${to}`,
    parabolaOrigin: 'Gezählt ab',
    parabolaTerm: power =>
      ['Geschwindigkeit dort', 'Ihr Anstieg je Sekunde', 'Mal dem Quadrat der Sekunden'][power]!,
    rootOf: 'Wurzel aus',
    parabolaFormula: (unit, speed, root, since, at) =>
      `Geschwindigkeit = a + b t + c t² in ${unit}, mit t in Sekunden seit T. Sie erreicht v = ${speed} bei t = ${root} = ${since}; T + t = ${at}.`,
    brakes: {
      caption: (speed, answers, from, to) =>
        `Die Bremsen, wie sie um ${speed} zu greifen beginnen: die wahrscheinlichste von ${answers} Antworten, aus den Messwerten der Zeilen ${from} bis ${to}`,
      onset: 'Die Bremsen greifen ab',
      rise: 'Die Verzögerung steigt',
      level: 'Geschwindigkeit dort',
      slope: 'Ihre Änderung je Sekunde ohne die Bremsen',
      full: 'Was die Bremsen je Sekunde wegnehmen, voll',
      formula: unit =>
        `Geschwindigkeit = a + b x − d D in ${unit}, mit x in Sekunden seit T; D ist x² ÷ (2 r), solange x kleiner als r ist, danach x − r ÷ 2.`,
      passes: (speed, root, since, at) =>
        `Sie erreicht v = ${speed} bei x = ${root} = ${since}; T + x = ${at}.`,
      passedBefore: speed =>
        `Dort ist das Auto schon langsamer als ${speed}, und nur was gebremst ist, zählt: Erreicht wird sie bei T.`,
      average: (answers, at, off) =>
        `Veröffentlicht ist nicht diese Antwort allein, sondern der Mittelwert aller ${answers}, jede danach gewichtet, wie gut die Messwerte sie stützen: ${at}, ${off} von dieser.`,
    },
    straightPublished:
      'Veröffentlicht: diese Gerade, weil keine Kurve durch mehr Messwerte mit ihnen übereinstimmte.',
    bend: (at, off) =>
      `Veröffentlicht: ${at}, ${off} von dieser Geraden, aus einer Anpassung an die Krümmung, die die Messwerte hier durchlaufen.`,
    tapeLaid: (at, speed, line, lead, intervals, before) =>
      `Das Maßband ist am Ende des ersten Fußes angelegt, ${at}, bei ${speed}. Bis zum nächsten Messwert, Zeile ${line}, die halbe Summe der beiden Geschwindigkeiten mal der Zeit dazwischen: ${lead}. ${intervals} Abstände, jeder die halbe Summe seiner beiden Geschwindigkeiten (in km/h, geteilt durch 3,6) mal seiner Länge, führen dann zu Zeile ${before}.`,
    lineReadings: name => `${name}: Messwerte um die Linie, mit der Strecke seit dem Ende des ersten Fußes`,
    tapeReads: (distance, before, after, sum) =>
      `Das Maßband muss ${distance} zeigen. Gerade zwischen den Zeilen ${before} und ${after}: ${sum}.`,
    linePublished: (at, off, speed) =>
      `Veröffentlicht, wobei die Geschwindigkeit und nicht die Strecke zwischen zwei Messwerten als gerade gilt: ${at}, ${off} von dieser Geraden; dort beträgt die Geschwindigkeit ${speed}.`,
    restReadings: name =>
      `${name}: Messwerte um den Stillstand, mit der Strecke seit dem Durchgang der Geschwindigkeit`,
    rest: (at, last) =>
      `Die Strecke wächst um die halbe Summe zweier benachbarter Geschwindigkeiten mal der Zeit dazwischen. Der Stillstand kommt bei ${at}, aus einer Anpassung an das Ende der Bremsung; vom letzten bewegten Messwert an ist die halbe Geschwindigkeit mal der verbleibenden Zeit ${last}.`,
    covered: length => `Zwischen den beiden Geschwindigkeiten legte das Auto ${length} zurück.`,
    steepest: 'Der Abschnitt des steilsten Anstiegs',
    aroundHighest: 'Messwerte um den höchsten',
    highest: {
      caption: (answers, from, to) =>
        `Die Kurve um den höchsten Messwert: die wahrscheinlichste von ${answers}, aus den Messwerten der Zeilen ${from} bis ${to}`,
      origin: {
        parabola: 'Gezählt ab',
        point: 'Läuft spitz zu bei',
        brakes: 'Die Bremsen beginnen bei',
      },
      level: 'Geschwindigkeit dort',
      second: {
        parabola: 'Ihr Anstieg je Sekunde',
        point: 'Ihr Anstieg je Sekunde davor',
        brakes: 'Ihr Anstieg je Sekunde davor',
      },
      third: {
        parabola: 'Mal dem Quadrat der Sekunden',
        point: 'Ihr Anstieg je Sekunde danach',
        brakes: 'Mal dem Quadrat der Sekunden danach',
      },
      formula: {
        parabola: unit => `Geschwindigkeit = a + b x + c x² in ${unit}, mit x in Sekunden seit T.`,
        point: unit =>
          `Geschwindigkeit = a + b x vor T und a + c x danach in ${unit}, mit x in Sekunden seit T.`,
        brakes: unit =>
          `Geschwindigkeit = a + b x vor T und a + c x² danach in ${unit}, mit x in Sekunden seit T.`,
      },
      top: (since, speed) =>
        `Genommen am Scheitel oder an der Spitze, und nie außerhalb der Messwerte, aus denen sie stammt: x = ${since}, ${speed}.`,
      average: (answers, speed, off) =>
        `Veröffentlicht ist nicht diese Kurve allein, sondern der Mittelwert über alle ${answers}, jede danach gewichtet, wie gut die Messwerte sie stützen: ${speed}, ${off} von dieser.`,
    },
    printed: printed => `Gedruckt: ${printed}.`,
    clock: sum => `Uhr: ${sum}.`,
    speedAtLine: speed => `Geschwindigkeit auf der Linie: ${speed}.`,
    between: sum => `Zwischen beiden: ${sum}.`,
    distanceSum: sum => `Strecke: ${sum}.`,
    mfddDivisors: { 'km/h': '25,92', mph: '10,00777' },
    divisors: { 'km/h': '3,6', mph: '2,236936' },
    peak: (sum, fitted) =>
      `Von Hand, letzter weniger erster: ${sum}. Nach kleinsten Quadraten durch alle: ${fitted}.`,
    top: (middle, published, off) =>
      `Von Hand, der größte mittlere von drei benachbarten Messwerten: ${middle}. Veröffentlicht, der Scheitel der ringsum angepassten Kurven: ${published}, ${off} davon.`,
  },
});
