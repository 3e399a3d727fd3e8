/** Stops, and how much of the road a run took. */
import { catalogue, counted, listed } from '../../language.ts';

export const brakingWords = catalogue({
  en: {
    axis: (speed: string) => `m, from where the car is at ${speed}`,
    shortest: (distance: string) => `shortest ${distance}`,
    median: (distance: string) => `median ${distance}`,
    counts: (kept: number, aside: number) =>
      `${kept} ${counted(kept, 'stop', 'stops')} kept${aside === 0 ? '' : `, ${aside} set aside`}`,
    allAside: (car: string, speed: string) => `Stops of the ${car} from ${speed}, all set aside`,
    title: (car: string, speed: string, best: string) => `From ${speed} the ${car} stops in ${best}`,
    titleOfMany: (car: string, speed: string, best: string, median: string, n: number) =>
      `From ${speed} the ${car} stops in ${best} at best, ${median} in the middle of ${n}`,
    mfdd: (value: string) => `Mean fully developed deceleration of the shortest: ${value}.`,
    method: (counts: string, dashed: boolean, speed: string) =>
      `${counts}${dashed ? ' (dashed)' : ''}; no reaction time. The distance is that to rest from ${speed}.`,
    deck: (car: string) => `Speed over distance of every stop, ${car}`,
    caption: (speed: string, counts: string, best: string, median: string, n: number) =>
      `Speed over distance of the stops from ${speed}: ${counts}. Best ${best}, median ${median}, of ${n}.`,
    chart: (counts: string, speed: string) => `Line chart of speed over distance of ${counts} from ${speed}.`,
    tableCaption: (speed: string) => `Distance after ${speed} at which each stop is down to a speed`,
    column: (attempt: number, aside: boolean) => `Attempt ${attempt}${aside ? ', set aside' : ''}`,
    published: (distances: readonly string[]) => `Stopping distance as published: ${distances.join(', ')}.`,
    publishedOne: (attempt: number, distance: string) => `attempt ${attempt} ${distance}`,
  },
  de: {
    axis: speed => `m ab der Stelle, an der das Auto ${speed} fährt`,
    shortest: distance => `kürzester Weg ${distance}`,
    median: distance => `Median ${distance}`,
    counts: (kept, aside) =>
      `${kept} ${counted(kept, 'Bremsung', 'Bremsungen')} gewertet${aside === 0 ? '' : `, ${aside} nicht gewertet`}`,
    allAside: (car, speed) => `${car}: Bremsungen aus ${speed}, alle nicht gewertet`,
    title: (car, speed, best) => `${car}: Bremsweg aus ${speed} ${best}`,
    titleOfMany: (car, speed, best, median, n) =>
      `${car}: Bremsweg aus ${speed} bestenfalls ${best}, ${median} in der Mitte von ${n}`,
    mfdd: value => `Mittlere Vollverzögerung der kürzesten Bremsung: ${value}.`,
    method: (counts, dashed, speed) =>
      `${counts}${dashed ? ' (gestrichelt)' : ''}; ohne Reaktionszeit. Der Bremsweg zählt von ${speed} bis zum Stillstand.`,
    deck: car => `Geschwindigkeit über dem Weg bei jeder Bremsung, ${car}`,
    caption: (speed, counts, best, median, n) =>
      `Geschwindigkeit über dem Weg bei den Bremsungen aus ${speed}: ${counts}. Kürzester Bremsweg ${best}, Median ${median}, aus ${n}.`,
    chart: (counts, speed) => `Liniendiagramm der Geschwindigkeit über dem Weg, ${counts}, aus ${speed}.`,
    tableCaption: speed => `Weg nach ${speed}, bei dem jede Bremsung auf eine Geschwindigkeit gefallen ist`,
    column: (attempt, aside) => `Versuch ${attempt}${aside ? ', nicht gewertet' : ''}`,
    published: distances => `Bremsweg wie veröffentlicht: ${distances.join(', ')}.`,
    publishedOne: (attempt, distance) => `Versuch ${attempt} ${distance}`,
  },
});

export const roadUsedWords = catalogue({
  en: {
    caution:
      'What one run used, not what the next one needs. It is not a clearance to drive: closed road, local law and licensed practice come first.',
    nameAside: (name: string) => `${name}, set aside`,
    driven: (distance: string, speed: string) => `${distance} to ${speed}`,
    toRest: (distance: string) => `${distance} to rest`,
    noStop: 'no stop in this run',
    slowing: (distance: string) => `${distance} slowing, not to rest`,
    beyond: (distance: string) => `${distance} beyond the stated length`,
    left: (distance: string) => `${distance} left`,
    leftMoving: (distance: string) => `${distance} left, not at rest`,
    /** `attempt` where one run alone is drawn. */
    took: (attempt: number | undefined, used: string, length: string, stopped: boolean) =>
      `${attempt === undefined ? 'The longest of these runs' : `Attempt ${attempt}`} took ${used} of a road of ${length}${stopped ? '' : ', and was not at rest by then'}`,
    tookMore: (attempt: number | undefined, used: string, length: string) =>
      `${attempt === undefined ? 'The longest of these runs' : `Attempt ${attempt}`} took ${used}, more than the ${length} stated for the road`,
    method:
      'Distances from first movement, by the recorded speed. Solid: gaining speed; hatched: from the brake to rest; outline: the road’s stated length, as if every run began at its end.',
    sentence: (
      name: string,
      aside: boolean,
      driven: string,
      time: string | undefined,
      braked: string,
      stopped: boolean,
      left: string,
    ) =>
      `${name}${aside ? ', set aside' : ''}: ${driven}${time === undefined ? '' : `, ${time}`}, ${braked} ${stopped ? 'to rest' : 'of slowing, not to rest'}, ${left}.`,
    reached: (label: string, time: string) => `${label} in ${time}`,
    deck: (car: string, road: string) => `Road used from start to brake to rest, ${car} on ${road}`,
    caption: (attempts: readonly string[]) =>
      `Road used by ${counted(attempts.length, 'attempt', 'attempts')} ${listed(attempts, 'en')}.`,
    chart: 'Bars of road used.',
    tableCaption: (length: string) => `Road used of ${length}`,
    highestSpeed: 'Highest speed',
    toBrake: 'To the brake',
    fromThereToRest: 'From there to rest',
    inAll: 'In all',
    leftOfLength: 'Left of the stated length',
    notToRest: (digits: string) => `${digits}, not to rest`,
  },
  de: {
    caution:
      'Was eine Fahrt brauchte, nicht, was die nächste braucht. Keine Freigabe zum Fahren: Abgesperrte Strecke, örtliches Recht und die Regeln für genehmigte Fahrversuche gehen vor.',
    nameAside: name => `${name}, nicht gewertet`,
    driven: (distance, speed) => `${distance} bis ${speed}`,
    toRest: distance => `${distance} bis zum Stand`,
    noStop: 'ohne Bremsung',
    slowing: distance => `${distance} langsamer, nicht bis zum Stand`,
    beyond: distance => `${distance} über die angegebene Länge`,
    left: distance => `${distance} übrig`,
    leftMoving: distance => `${distance} übrig, nicht im Stand`,
    took: (attempt, used, length, stopped) =>
      `${attempt === undefined ? 'Die längste dieser Fahrten' : `Versuch ${attempt}`} brauchte ${used} von ${length} Strecke${stopped ? '' : ' und stand dann noch nicht'}`,
    tookMore: (attempt, used, length) =>
      `${attempt === undefined ? 'Die längste dieser Fahrten' : `Versuch ${attempt}`} brauchte ${used}, mehr als die angegebenen ${length} der Strecke`,
    method:
      'Wege ab der ersten Bewegung, aus der aufgezeichneten Geschwindigkeit. Voll: beschleunigend; schraffiert: vom Bremsen bis zum Stand; Umriss: die angegebene Länge der Strecke, als begänne jede Fahrt an deren Ende.',
    sentence: (name, aside, driven, time, braked, stopped, left) =>
      `${name}${aside ? ', nicht gewertet' : ''}: ${driven}${time === undefined ? '' : `, ${time}`}, ${braked} ${stopped ? 'bis zum Stand' : 'langsamer werdend, nicht bis zum Stand'}, ${left}.`,
    reached: (label, time) => `${label} in ${time}`,
    deck: (car, road) => `Genutzte Strecke vom Start über das Bremsen bis zum Stand, ${car} auf ${road}`,
    caption: attempts =>
      `Genutzte Strecke, ${counted(attempts.length, 'Versuch', 'Versuche')} ${listed(attempts, 'de')}.`,
    chart: 'Balken der genutzten Strecke.',
    tableCaption: length => `Genutzte Strecke von ${length}`,
    highestSpeed: 'Höchste Geschwindigkeit',
    toBrake: 'Bis zum Bremsen',
    fromThereToRest: 'Von dort bis zum Stand',
    inAll: 'Insgesamt',
    leftOfLength: 'Rest der angegebenen Länge',
    notToRest: digits => `${digits}, nicht bis zum Stand`,
  },
});
