/** Markers of a run as an editing program shows them. */
import { catalogue } from '../../language.ts';

export const markWords = catalogue({
  en: {
    attempt: (number: number) => `Attempt ${number}`,
    firstMovement: 'First movement',
    carMoves: 'The car moves',
    clockStarts: 'Clock starts',
    oneFoot: 'The car has covered one foot',
    reached: (label: string, time: string) => `${label} in ${time}`,
    carStopped: 'Car stopped',
    standsAgain: 'The car stands again',
    runEnds: 'Run ends',
    measuredRunEnds: 'The measured run ends',
  },
  de: {
    attempt: number => `Versuch ${number}`,
    firstMovement: 'Erste Bewegung',
    carMoves: 'Das Auto bewegt sich',
    clockStarts: 'Zeitnahme beginnt',
    oneFoot: 'Das Auto hat einen Fuß zurückgelegt',
    reached: (label, time) => `${label} in ${time}`,
    carStopped: 'Auto steht',
    standsAgain: 'Das Auto steht wieder',
    runEnds: 'Fahrt endet',
    measuredRunEnds: 'Die gemessene Fahrt endet',
  },
});
