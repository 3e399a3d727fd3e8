/** Every attempt of the day, by launch method or by the clock. */
import { catalogue, counted, listed, quotedName } from '../../language.ts';

const en = (name: string): string => quotedName(name, 'en');
const de = (name: string): string => quotedName(name, 'de');

export const runsOfTheDayWords = catalogue({
  en: {
    noLaunch: 'No launch method noted',
    allAttempts: 'All attempts',
    axis: (label: string, rule: string) => `s, ${label}, ${rule}`,
    missing: (n: number) =>
      `${n === 1 ? 'One kept attempt' : `${n} kept attempts`} did not reach it and cannot be shown.`,
    deck: (label: string, car: string) =>
      `${label} of every attempt of the day, ${car}; in each row the day runs downwards`,
    caption: (label: string, rule: string, counts: string) =>
      `${label} of every attempt by launch method, ${rule}: ${counts}. Solid: kept. Hollow: set aside. Lines through the marks: expanded uncertainty, k = 2.`,
    key: 'Solid: kept; hollow: set aside.',
    method: 'Solid: kept; hollow: set aside. Line through a mark: uncertainty, k = 2.',
    chart: (label: string, counts: string) =>
      `Dot chart of ${label} of every attempt, by launch method: ${counts}.`,
    /** `median` absent where one attempt alone was kept. */
    takes: (car: string, best: string, median: string | undefined, label: string) =>
      `The ${car} takes ${best} ${median === undefined ? 'in the one kept attempt' : `at best, ${median} in the middle`} for ${label}`,
    noneStandsOut: (best: string, why: 'too few' | 'too close') =>
      `No launch method stands out: ${best} at best, but the ${why === 'too few' ? 'attempts are too few to tell' : 'medians are too close to call'}`,
    quickest: (first: string, difference: string, next: string) =>
      `${en(first)} is quickest: its median is ${difference} ahead of ${en(next)}`,
    someSlower: (slow: readonly string[], first: string) =>
      `${listed(slow.map(en), 'en')} ${counted(slow.length, 'is', 'are')} slower than ${en(first)}; between the others it is too close to call`,
    rowUnmeasured: (name: string, n: number) => `${name}: ${n} ${counted(n, 'attempt', 'attempts')}.`,
    row: (name: string, best: string, median: string, kept: number, aside: number) =>
      `${name}: best ${best}, median ${median}, ${kept} kept${aside === 0 ? '' : `, ${aside} set aside`}.`,
    tableCaption: (label: string, rule: string) => `${label} of every attempt that reached it, ${rule}`,
    bestOfLaunch: 'best of its launch method',
    middleOfDay: 'middle of the day',
  },
  de: {
    noLaunch: 'Ohne notierte Startmethode',
    allAttempts: 'Alle Versuche',
    axis: (label, rule) => `s, ${label}, ${rule}`,
    missing: n =>
      n === 1
        ? 'Ein gewerteter Versuch hat sie nicht erreicht und fehlt im Bild.'
        : `${n} gewertete Versuche haben sie nicht erreicht und fehlen im Bild.`,
    deck: (label, car) =>
      `${label} in jedem Versuch des Tages, ${car}; in jeder Zeile läuft der Tag nach unten`,
    caption: (label, rule, counts) =>
      `${label} in jedem Versuch nach Startmethode, ${rule}: ${counts}. Voll: gewertet. Hohl: nicht gewertet. Linien durch die Marken: erweiterte Unsicherheit, k = 2.`,
    key: 'Voll: gewertet; hohl: nicht gewertet.',
    method: 'Voll: gewertet; hohl: nicht gewertet. Linie durch eine Marke: Unsicherheit, k = 2.',
    chart: (label, counts) => `Punktdiagramm, ${label} in jedem Versuch, nach Startmethode: ${counts}.`,
    takes: (car, best, median, label) =>
      `${car}: ${label} in ${best}${median === undefined ? ' im einzigen gewerteten Versuch' : ` im besten Fall, ${median} in der Mitte`}`,
    noneStandsOut: (best, why) =>
      `Keine Startmethode ragt heraus: bestenfalls ${best}, doch ${why === 'too few' ? 'es sind zu wenige Versuche für ein Urteil' : 'die Mediane liegen zu eng beieinander'}`,
    quickest: (first, difference, next) =>
      `${de(first)} ist am schnellsten: Der Median liegt ${difference} vor ${de(next)}`,
    someSlower: (slow, first) =>
      `${listed(slow.map(de), 'de')} ${counted(slow.length, 'ist', 'sind')} langsamer als ${de(first)}; zwischen den anderen ist es zu eng für eine Rangfolge`,
    rowUnmeasured: (name, n) => `${name}: ${n} ${counted(n, 'Versuch', 'Versuche')}.`,
    row: (name, best, median, kept, aside) =>
      `${name}: Bestwert ${best}, Median ${median}, ${kept} gewertet${aside === 0 ? '' : `, ${aside} nicht gewertet`}.`,
    tableCaption: (label, rule) => `${label} in jedem Versuch, der so weit kam, ${rule}`,
    bestOfLaunch: 'bester seiner Startmethode',
    middleOfDay: 'Mitte des Tages',
  },
});

export const orderOfTheDayWords = catalogue({
  en: {
    best: (letter: string) => `${letter} best`.trim(),
    method: 'Solid: kept; hollow: set aside; line through a mark: uncertainty, k = 2.',
    deck: (label: string, car: string, key: string) =>
      `${label} of every attempt against the clock, ${car}${key === '' ? '' : `: ${key}`}`,
    caption: (label: string, rule: string, counts: string) =>
      `${label} of every attempt in the day’s order, ${rule}: ${counts}.`,
    chart: (label: string, counts: string) =>
      `Dot chart of ${label} against the clock, with air temperature and wind below: ${counts}.`,
    tableCaption: (label: string, rule: string) => `${label} in the day’s order, ${rule}`,
    airTemperature: 'Air temperature',
    headwind: 'Wind against the car',
    title: (label: string, car: string) => `${label} of the ${car} in the day’s order`,
    tooFew: (best: string) =>
      `Too few attempts of one launch method, or too short a day, to tell a drift. Best ${best}.`,
    noDriftTitle: (label: string, car: string) =>
      `${label} of the ${car}: no drift through the day can be told`,
    noDrift: (n: number, launch: string) =>
      `Over ${n} attempts with ${en(launch)} no drift can be told from scatter.`,
    driftTitle: (launch: string, car: string, quicker: boolean, by: string) =>
      `With ${en(launch)} the ${car} grew ${quicker ? 'quicker' : 'slower'} through the day, by ${by} an hour`,
    drift: (n: number, launch: string, quicker: boolean, by: string, uncertainty: string) =>
      `Over ${n} attempts with ${en(launch)} the time ${quicker ? 'fell' : 'rose'} by ${by} an hour, ± ${uncertainty}, 95 %; what caused it is not known from this.`,
  },
  de: {
    best: letter => `${letter} Bestwert`.trim(),
    method: 'Voll: gewertet; hohl: nicht gewertet; Linie durch eine Marke: Unsicherheit, k = 2.',
    deck: (label, car, key) => `${label} jedes Versuchs nach der Uhr, ${car}${key === '' ? '' : `: ${key}`}`,
    caption: (label, rule, counts) =>
      `${label} jedes Versuchs in der Reihenfolge des Tages, ${rule}: ${counts}.`,
    chart: (label, counts) =>
      `Punktdiagramm, ${label} nach der Uhr, darunter Lufttemperatur und Wind: ${counts}.`,
    tableCaption: (label, rule) => `${label} in der Reihenfolge des Tages, ${rule}`,
    airTemperature: 'Lufttemperatur',
    headwind: 'Gegenwind',
    title: (label, car) => `${car}: ${label} in der Reihenfolge des Tages`,
    tooFew: best =>
      `Zu wenige Versuche einer Startmethode oder ein zu kurzer Tag, um einen Gang zu erkennen. Bestwert ${best}.`,
    noDriftTitle: (label, car) => `${car}: ${label}, kein Gang über den Tag zu erkennen`,
    noDrift: (n, launch) =>
      `In ${n} Versuchen mit ${de(launch)} hebt sich kein Gang über den Tag von der Streuung ab.`,
    driftTitle: (launch, car, quicker, by) =>
      `Mit ${de(launch)} wurde ${car} über den Tag ${quicker ? 'schneller' : 'langsamer'}, um ${by} je Stunde`,
    drift: (n, launch, quicker, by, uncertainty) =>
      `In ${n} Versuchen mit ${de(launch)} ${quicker ? 'fiel' : 'stieg'} die Zeit um ${by} je Stunde, ± ${uncertainty}, 95 %; was die Ursache war, ist daraus nicht zu erkennen.`,
  },
});

export const conditionsStripWords = catalogue({
  en: {
    field: {
      temperature_c: 'air temperature',
      wind_mps: 'wind',
      humidity_pct: 'humidity',
      pressure_hpa: 'pressure',
    },
    method: (surfaces: readonly string[]) =>
      `Each reading holds until the next. Short ticks: attempts.${surfaces.length === 0 ? '' : ` Surface: ${surfaces.join(', then ')}.`}`,
    key: 'Short ticks: attempts.',
    deck: (road: string) => `What was read through the day, ${road}`,
    caption: (attempts: number) => `Air and wind through the day of ${attempts} attempts.`,
    alt: (ranges: string, summary: string) =>
      `Line charts of readings over the clock of the day. ${ranges}. Over the attempts: ${summary}.`,
    tableCaption: 'Readings through the day',
    untilNext: 'Attempts until the next reading',
    note: 'A reading counts for the attempts after it, until the next.',
    title: (road: string) => `The air of the day on ${road}`,
  },
  de: {
    field: {
      temperature_c: 'Lufttemperatur',
      wind_mps: 'Wind',
      humidity_pct: 'Luftfeuchte',
      pressure_hpa: 'Luftdruck',
    },
    method: surfaces =>
      `Jede Ablesung gilt bis zur nächsten. Kurze Striche: Versuche.${surfaces.length === 0 ? '' : ` Fahrbahn: ${surfaces.join(', dann ')}.`}`,
    key: 'Kurze Striche: Versuche.',
    deck: road => `Was über den Tag abgelesen wurde, ${road}`,
    caption: attempts => `Luft und Wind über den Tag mit ${attempts} Versuchen.`,
    alt: (ranges, summary) =>
      `Liniendiagramme der Ablesungen über der Uhrzeit. ${ranges}. Während der Versuche: ${summary}.`,
    tableCaption: 'Ablesungen über den Tag',
    untilNext: 'Versuche bis zur nächsten Ablesung',
    note: 'Eine Ablesung gilt für die Versuche nach ihr, bis zur nächsten.',
    title: road => `Die Luft des Tages auf ${road}`,
  },
});
