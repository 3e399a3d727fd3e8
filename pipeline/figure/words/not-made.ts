/** Why a figure cannot be drawn. */
import { catalogue, quotedName } from '../../language.ts';

export const notMadeWords = catalogue({
  en: {
    /** The unit is that of the publication's speeds; from 30 of either on there is a time from rest. */
    noStart: (unit: string) => `No kept attempt began from rest and reached 30\u00a0${unit}.`,
    noMeasuredStart: 'None of the chosen attempts has a measured start.',
    attemptWithoutStart: (id: string) => `Attempt ${id} has no measured start.`,
    fewReadings: 'The chosen runs have too few readings for an acceleration: five are needed in each window.',
    noStopFrom: (speed: string) => `No kept attempt was braked to a stop from ${speed} or more.`,
    noChosenStopFrom: (speed: string) => `None of the chosen attempts was braked to a stop from ${speed}.`,
    noSuchStop: (word: string) => `There is no attempt ${quotedName(word, 'en')} with a stop in this test.`,
    anotherKind: (id: string) => `Attempt ${id} is of another kind and cannot be drawn in this figure.`,
    tooMany: (most: number, asked: number) =>
      `At most ${most} attempts can be told apart in one figure; ${asked} were asked for.`,
    noneReachedIt: 'No kept attempt reached the figure it would be chosen by.',
    noneWithLaunch: (launch: string) =>
      `No kept attempt with the launch method ${quotedName(launch, 'en')} reached the figure it would be chosen by.`,
    noSuchAttempt: (word: string, first?: string, last?: string) =>
      `There is no attempt ${quotedName(word, 'en')} in this test; it has ${first ?? 'none'}${last === undefined ? '' : ` to ${last}`}.`,
    noAttempts: 'No kept attempt, and no attempt at all, to show conditions of.',
    noReadings: 'No reading of air or wind was noted in this test.',
    noneChosen: 'No attempt was chosen.',
    oneOnly: 'This figure shows one attempt; more were asked for.',
    noRangeShared: 'The two runs share no range of speed with readings enough.',
    fewMethods: 'Fewer than two launch methods have a kept attempt.',
    notTwo: 'There are not two tests or launch methods to set side by side.',
    noOtherTest: (measure: string) => `No other test reached ${measure}.`,
    betweenTwo: (asked: number) => `Time gained is drawn between two runs, not ${asked}.`,
  },
  de: {
    noStart: unit => `Kein gewerteter Versuch begann im Stand und erreichte 30\u00a0${unit}.`,
    noMeasuredStart: 'Keiner der gewählten Versuche hat einen gemessenen Start.',
    attemptWithoutStart: id => `Versuch ${id} hat keinen gemessenen Start.`,
    fewReadings:
      'Die gewählten Fahrten haben zu wenige Messwerte für eine Beschleunigung: Jedes Fenster braucht fünf.',
    noStopFrom: speed => `Kein gewerteter Versuch wurde aus ${speed} oder mehr bis zum Stand gebremst.`,
    noChosenStopFrom: speed => `Keiner der gewählten Versuche wurde aus ${speed} bis zum Stand gebremst.`,
    noSuchStop: word => `In diesem Test gibt es keinen Versuch ${quotedName(word, 'de')} mit einer Bremsung.`,
    anotherKind: id =>
      `Versuch ${id} ist von anderer Art und kann in dieser Abbildung nicht gezeichnet werden.`,
    tooMany: (most, asked) =>
      `Höchstens ${most} Versuche lassen sich in einer Abbildung auseinanderhalten; gewünscht sind ${asked}.`,
    noneReachedIt: 'Kein gewerteter Versuch erreichte den Wert, nach dem gewählt würde.',
    noneWithLaunch: launch =>
      `Kein gewerteter Versuch mit der Startmethode ${quotedName(launch, 'de')} erreichte den Wert, nach dem gewählt würde.`,
    noSuchAttempt: (word, first, last) =>
      `In diesem Test gibt es keinen Versuch ${quotedName(word, 'de')}; es gibt ${first ?? 'keinen'}${last === undefined ? '' : ` bis ${last}`}.`,
    noAttempts: 'Kein gewerteter Versuch und überhaupt keiner, dessen Bedingungen zu zeigen wären.',
    noReadings: 'Zu diesem Test sind weder Luft noch Wind notiert.',
    noneChosen: 'Es ist kein Versuch gewählt.',
    oneOnly: 'Diese Abbildung zeigt einen Versuch; gewünscht sind mehrere.',
    noRangeShared:
      'Die beiden Fahrten haben keinen Geschwindigkeitsbereich mit genügend Messwerten gemeinsam.',
    fewMethods: 'Weniger als zwei Startmethoden haben einen gewerteten Versuch.',
    notTwo: 'Es gibt keine zwei Tests oder Startmethoden, die nebeneinander stehen könnten.',
    noOtherTest: measure => `Kein anderer Test erreichte ${measure}.`,
    betweenTwo: asked => `Gewonnene Zeit steht zwischen zwei Fahrten, nicht zwischen ${asked}.`,
  },
});
