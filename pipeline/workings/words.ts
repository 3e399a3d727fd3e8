/** Words of workings: facts, readings, steps, budgets. Numbers come in printed. */
import { catalogue } from '../language.ts';

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
      `Speed around the start: ${readings} readings as dots, first movement with its band of uncertainty${foot ? ', the end of the first foot' : ''}${ruler ? ', and a straight line through two readings' : ''}.`,
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
      lag: 'lag',
      position: 'position',
      jitter: 'jitter',
    },
    root: 'Root of the sum of squares',
    timesAMetre: (share: string) => `Times ${share} a metre`,
    expanded: (k: number) => `Expanded, k = ${k}`,
    budgetCaption: (name: string, ofLength: boolean) =>
      `Uncertainty of ${name}: standard uncertainties${ofLength ? ' of the length between the two speeds' : ''}`,
    item: 'Item',
    standard: 'Standard uncertainty',
    // Steps.
    readingsAround: (what: string) => `Readings around ${what}`,
    straight: (before: number, after: number, sum: string) =>
      `Straight line between lines ${before} and ${after}: ${sum}.`,
    parabola: (at: string, off: string, count: number, from: number, to: number, formula: string) =>
      `Published: ${at}, ${off} from that line, by least squares through the ${count} readings of lines ${from} to ${to}: ${formula}`,
    straightPublished:
      'Published: this straight line, because no curve through more readings agreed with them.',
    bend: (at: string, off: string) =>
      `Published: ${at}, ${off} from that line, by a fit of the bend that the readings go through here.`,
    formula: (polynomial: string, origin: string) =>
      `speed = ${polynomial} in km/h, where t is the time in seconds less ${origin}.`,
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
    // The last line.
    printed: (printed: string) => `Printed: ${printed}.`,
    clock: (sum: string) => `Clock: ${sum}.`,
    speedAtLine: (speed: string) => `Speed at the line: ${speed}.`,
    between: (sum: string) => `Between the two: ${sum}.`,
    distanceSum: (sum: string) => `Distance: ${sum}.`,
    mfddDivisor: '25.92',
    kmhDivisor: '3.6',
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
      `Geschwindigkeit um den Start: ${readings} Messwerte als Punkte, die erste Bewegung mit ihrem Band der Unsicherheit${foot ? ', das Ende des ersten Fußes' : ''}${ruler ? ' und eine Gerade durch zwei Messwerte' : ''}.`,
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
    readingsAround: what => `Messwerte um ${what}`,
    straight: (before, after, sum) => `Gerade zwischen den Zeilen ${before} und ${after}: ${sum}.`,
    parabola: (at, off, count, from, to, formula) =>
      `Veröffentlicht: ${at}, ${off} von dieser Geraden, nach kleinsten Quadraten durch die ${count} Messwerte der Zeilen ${from} bis ${to}: ${formula}`,
    straightPublished:
      'Veröffentlicht: diese Gerade, weil keine Kurve durch mehr Messwerte mit ihnen übereinstimmte.',
    bend: (at, off) =>
      `Veröffentlicht: ${at}, ${off} von dieser Geraden, aus einer Anpassung an die Krümmung, die die Messwerte hier durchlaufen.`,
    formula: (polynomial, origin) =>
      `Geschwindigkeit = ${polynomial} in km/h, wobei t die Zeit in Sekunden weniger ${origin} ist.`,
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
    printed: printed => `Gedruckt: ${printed}.`,
    clock: sum => `Uhr: ${sum}.`,
    speedAtLine: speed => `Geschwindigkeit auf der Linie: ${speed}.`,
    between: sum => `Zwischen beiden: ${sum}.`,
    distanceSum: sum => `Strecke: ${sum}.`,
    mfddDivisor: '25,92',
    kmhDivisor: '3,6',
    peak: (sum, fitted) =>
      `Von Hand, letzter weniger erster: ${sum}. Nach kleinsten Quadraten durch alle: ${fitted}.`,
    top: (middle, published, off) =>
      `Von Hand, der größte mittlere von drei benachbarten Messwerten: ${middle}. Veröffentlicht, der Scheitel der ringsum angepassten Kurven: ${published}, ${off} davon.`,
  },
});
