/** The start of one run, reading by reading. */
import { catalogue, quotedName } from '../../language.ts';

export const firstTwoSecondsWords = catalogue({
  en: {
    axis: 's, after first movement',
    firstMovement: 'First movement',
    fromTheRise: (uncertainty: string) => `from the rise itself, ± ${uncertainty}`,
    oneFoot: 'One foot covered',
    after: (time: string) => `after ${time}`,
    title: (time: string) => `The first foot takes ${time}, which a clock started after it leaves out`,
    speedThere: (speed: string) => `The car is then at ${speed}.`,
    method: (rollout: string, rate: string) =>
      `One foot is ${rollout} m. Each dot is one reading, ${rate}. First movement is fitted to the rise; ± is expanded, k = 2.`,
    deck: (attempt: number, launch: string | undefined, car: string) =>
      `The first two seconds of attempt ${attempt}${launch === undefined ? '' : `, ${quotedName(launch, 'en')}`}, ${car}`,
    caption: (attempt: number, time: string) =>
      `Speed over the first two seconds of attempt ${attempt}: every reading, first movement, and the instant one foot is covered. Clock from first movement is at 0 s; clock after the one-foot rollout starts ${time} later.`,
    alt: (
      seconds: string,
      attempt: number,
      uncertainty: string,
      time: string,
      speedThere: string,
      speedAtEnd: string,
    ) =>
      `Line chart of speed over the first ${seconds} s of attempt ${attempt}. First movement is at 0 s, uncertain by ${uncertainty}; one foot is covered ${time} later.${speedThere === '' ? '' : ` ${speedThere}`} After ${seconds} s the speed is ${speedAtEnd}.`,
    tableCaption: (attempt: number) =>
      `Speed and distance in the first two seconds of attempt ${attempt}, clock and tape from first movement`,
    note: (time: string) => `One foot is covered after ${time}. Read off by straight line between readings.`,
  },
  de: {
    axis: 's nach der ersten Bewegung',
    firstMovement: 'Erste Bewegung',
    fromTheRise: uncertainty => `aus dem Anstieg selbst, ± ${uncertainty}`,
    oneFoot: 'Ein Fuß zurückgelegt',
    after: time => `nach ${time}`,
    title: time => `Der erste Fuß dauert ${time}; eine Uhr, die erst danach läuft, lässt sie weg`,
    speedThere: speed => `Das Auto fährt dann ${speed}.`,
    method: (rollout, rate) =>
      `Ein Fuß sind ${rollout} m. Jeder Punkt ist ein Messwert, ${rate}. Die erste Bewegung ist an den Anstieg angepasst; ± ist erweitert, k = 2.`,
    deck: (attempt, launch, car) =>
      `Die ersten zwei Sekunden von Versuch ${attempt}${launch === undefined ? '' : `, ${quotedName(launch, 'de')}`}, ${car}`,
    caption: (attempt, time) =>
      `Geschwindigkeit in den ersten zwei Sekunden von Versuch ${attempt}: alle Messwerte, die erste Bewegung und der Augenblick, in dem ein Fuß zurückgelegt ist. Die erste Bewegung liegt bei 0 s; nach einem Fuß Anrollweg beginnt die Zeitnahme ${time} später.`,
    alt: (seconds, attempt, uncertainty, time, speedThere, speedAtEnd) =>
      `Liniendiagramm der Geschwindigkeit in den ersten ${seconds} s von Versuch ${attempt}. Die erste Bewegung liegt bei 0 s, auf ± ${uncertainty}; ein Fuß ist ${time} später zurückgelegt.${speedThere === '' ? '' : ` ${speedThere}`} Nach ${seconds} s beträgt die Geschwindigkeit ${speedAtEnd}.`,
    tableCaption: attempt =>
      `Geschwindigkeit und Weg in den ersten zwei Sekunden von Versuch ${attempt}, gemessen ab der ersten Bewegung`,
    note: time => `Ein Fuß ist nach ${time} zurückgelegt. Geradlinig zwischen den Messwerten abgelesen.`,
  },
});
