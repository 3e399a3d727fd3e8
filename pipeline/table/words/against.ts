/** This test beside the others. */
import { catalogue } from '../../language.ts';

export const againstWords = catalogue({
  en: {
    caption: (car: string) =>
      `${car} beside other tests: medians of the kept attempts, with how many they are of`,
    otherTest: 'Other test',
    clockFrom: 'Clock from',
    thisTest: 'This test',
    theOther: 'The other',
    apart: 'Apart',
    thisRestated: 'This, restated',
    otherRestated: 'The other, restated',
    thisAhead: 'this test is ahead',
    otherAhead: 'the other is ahead',
    none: 'No other test reached the same figures.',
    uncertaintyNote:
      'Uncertainty: expanded, about 95 %, of the difference, with the scatter between the attempts of both days. Ranked only where the difference exceeds it and nothing that matters stood against it.',
    launchNote:
      'Where both tests tried a launch method twice or more, its attempts alone count; otherwise all do.',
    restatedNote:
      'Restated: the same runs worked out for a level road in still reference air, never instead of the measured ones.',
  },
  de: {
    caption: car => `${car} neben anderen Tests: Mediane der gewerteten Versuche, in Klammern deren Zahl`,
    otherTest: 'Anderer Test',
    clockFrom: 'Gemessen ab',
    thisTest: 'Dieser Test',
    theOther: 'Der andere',
    apart: 'Abstand',
    thisRestated: 'Dieser, umgerechnet',
    otherRestated: 'Der andere, umgerechnet',
    thisAhead: 'dieser Test liegt vorn',
    otherAhead: 'der andere liegt vorn',
    none: 'Kein anderer Test hat dieselben Messgrößen erreicht.',
    uncertaintyNote:
      'Unsicherheit: erweitert, rund 95 %, des Unterschieds, mit der Streuung zwischen den Versuchen beider Tage. Eine Rangfolge gibt es nur, wo der Unterschied größer ist und nichts Wesentliches dagegen spricht.',
    launchNote:
      'Wo beide Tests eine Startmethode mindestens zweimal versucht haben, zählen nur deren Versuche, sonst alle.',
    restatedNote:
      'Umgerechnet: dieselben Fahrten auf ebener Straße in ruhender Bezugsluft, nie anstelle der gemessenen Werte.',
  },
});
