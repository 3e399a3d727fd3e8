/** Speed over time and speed over distance. */
import { catalogue, counted, quotedName } from '../../language.ts';

const en = (name: string): string => quotedName(name, 'en');
const de = (name: string): string => quotedName(name, 'de');

export const speedOverTimeWords = catalogue({
  en: {
    timeTo: (speed: string) => `time to ${speed}`,
    title: (car: string) => `Speed over time of the ${car}`,
    takes: (car: string, time: string, speed: string) => `The ${car} takes ${time} from rest to ${speed}`,
    tooClose: (runs: number, speed: string) =>
      `${runs === 2 ? 'Two' : 'These'} runs to ${speed} are too close to call`,
    tooCloseRange: (title: string, first: string, last: string) => `${title}: ${first} to ${last}.`,
    /** `level`: runs too close to the first to be called; `bests` where each is the best of its launch method. */
    quicker: (
      first: string,
      by: string,
      speed: string,
      last: string,
      level: readonly string[],
      bests: boolean,
    ) =>
      `${bests ? 'At its best ' : ''}${en(first)} is ${by} quicker to ${speed} than ${en(last)}${
        level.length === 0
          ? ''
          : level.length === 1
            ? `; ${en(level[0]!)} is too close to it to call`
            : `; ${level.length} others are too close to it to call`
      }`,
    deck: (car: string, choice: string, panelsIn?: string) =>
      `Speed over time${panelsIn ? ` in ${panelsIn}` : ''}, ${car}: ${choice}${panelsIn ? '; the thin line is the first run' : ''}`,
    caption: (attempts: string, rule: string) => `Speed over time of ${attempts}, ${rule}.`,
    counts: (label: string, n: number, median: string, aside: number) =>
      `${label}: ${n} kept attempts, median ${median}${aside > 0 ? `; ${aside} set aside` : ''}.`,
    chart: (panels: number | undefined) =>
      `${panels === undefined ? 'Line chart' : `${panels} small line charts`} of speed over time.`,
    reached: (name: string, speed: string, time: string) => `${name}: ${speed} in ${time}.`,
    tableCaption: (step: string, rule: string) => `Speed at every ${step} s, ${rule}`,
  },
  de: {
    timeTo: speed => `Zeit bis ${speed}`,
    title: car => `${car}: Geschwindigkeit über der Zeit`,
    takes: (car, time, speed) => `${car}: ${time} aus dem Stand auf ${speed}`,
    tooClose: (runs, speed) =>
      `${runs === 2 ? 'Zwei' : 'Diese'} Fahrten auf ${speed} liegen zu eng beieinander für eine Rangfolge`,
    tooCloseRange: (title, first, last) => `${title}: ${first} bis ${last}.`,
    quicker: (first, by, speed, last, level, bests) =>
      `${bests ? 'Im besten Fall ist ' : ''}${de(first)}${bests ? '' : ' ist'} ${by} schneller auf ${speed} als ${de(last)}${
        level.length === 0
          ? ''
          : level.length === 1
            ? `; ${de(level[0]!)} liegt zu nah daran für eine Rangfolge`
            : `; ${level.length} weitere liegen zu nah daran für eine Rangfolge`
      }`,
    deck: (car, choice, panelsIn) =>
      `Geschwindigkeit über der Zeit${panelsIn ? ` in ${panelsIn}` : ''}, ${car}: ${choice}${panelsIn ? '; die dünne Linie ist die erste Fahrt' : ''}`,
    caption: (attempts, rule) => `Geschwindigkeit über der Zeit, ${attempts}, ${rule}.`,
    counts: (label, n, median, aside) =>
      `${label}: ${n} ${counted(n, 'gewerteter Versuch', 'gewertete Versuche')}, Median ${median}${aside > 0 ? `; ${aside} nicht gewertet` : ''}.`,
    chart: panels =>
      `${panels === undefined ? 'Liniendiagramm' : `${panels} kleine Liniendiagramme`} der Geschwindigkeit über der Zeit.`,
    reached: (name, speed, time) => `${name}: ${speed} in ${time}.`,
    tableCaption: (step, rule) => `Geschwindigkeit alle ${step} s, ${rule}`,
  },
});

export const speedOverDistanceWords = catalogue({
  en: {
    distanceTo: (speed: string) => `distance to ${speed}`,
    after: (distance: string) => `after ${distance}`,
    method:
      'Distance is the integral of the recorded speed from the start; it is given without an uncertainty, and no run is ranked by it.',
    deck: (car: string, choice: string) => `Speed over distance, ${car}: ${choice}`,
    caption: (attempts: string, rule: string) => `Speed over distance of ${attempts}, ${rule}.`,
    chart: 'Line chart of speed over distance.',
    reached: (name: string, speed: string, distance: string) => `${name}: ${speed} after ${distance}.`,
    tableCaption: (rule: string) => `Speed at distances, ${rule}`,
    title: (car: string) => `Speed over distance of the ${car}`,
    covers: (car: string, distance: string, speed: string) =>
      `The ${car} covers ${distance} on the way to ${speed}`,
  },
  de: {
    distanceTo: speed => `Weg bis ${speed}`,
    after: distance => `nach ${distance}`,
    method:
      'Der Weg ist das Integral der aufgezeichneten Geschwindigkeit ab dem Start; er steht ohne Unsicherheit, und keine Fahrt wird danach gereiht.',
    deck: (car, choice) => `Geschwindigkeit über dem Weg, ${car}: ${choice}`,
    caption: (attempts, rule) => `Geschwindigkeit über dem Weg, ${attempts}, ${rule}.`,
    chart: 'Liniendiagramm der Geschwindigkeit über dem Weg.',
    reached: (name, speed, distance) => `${name}: ${speed} nach ${distance}.`,
    tableCaption: rule => `Geschwindigkeit nach Wegstrecken, ${rule}`,
    title: car => `${car}: Geschwindigkeit über dem Weg`,
    covers: (car, distance, speed) => `${car} braucht ${distance} bis ${speed}`,
  },
});
