/** Launch methods against each other, tests against each other, splits beside each other. */
import { catalogue, counted, listed, quotedName } from '../../language.ts';

export const methodsComparedWords = catalogue({
  en: {
    deck: (label: string, car: string) => `${label} of every kept attempt by launch method, ${car}`,
    caption: (label: string, rule: string, counts: string) =>
      `${label} by launch method, ${rule}: ${counts}. Dots: kept attempts. Short lines: medians.`,
    shaded: 'Shaded: between what a median lies, seen from the dashed one, about 95 %.',
    meetsDashed: 'Where the shading meets the dashed line, nothing is shown.',
    key: (shaded: boolean) =>
      `Dots: kept attempts; short lines: medians${shaded ? '; shaded: between what a median lies, about 95 %' : ''}.`,
    marks: 'Dots: kept attempts; short lines: medians.',
    chart: (label: string, counts: string) => `Dot chart of ${label} by launch method: ${counts}.`,
    kept: (n: number) => `${n} kept`,
    behindBy: (own: string, difference: string) => `${own}: behind by ${difference}`,
    behindBetween: (own: string, difference: string, low: string, high: string) =>
      `${own}: behind by ${difference}, between ${low} and ${high}`,
    verdict: (own: string, verdict: string) => `${own}: ${verdict}`,
  },
  de: {
    deck: (label, car) => `${label} in jedem gewerteten Versuch nach Startmethode, ${car}`,
    caption: (label, rule, counts) =>
      `${label} nach Startmethode, ${rule}: ${counts}. Punkte: gewertete Versuche. Kurze Striche: Mediane.`,
    shaded: 'Getönt: worin ein Median liegt, vom gestrichelten aus gesehen, rund 95 %.',
    meetsDashed: 'Wo die Tönung die gestrichelte Linie berührt, ist nichts gezeigt.',
    key: shaded =>
      `Punkte: gewertete Versuche; kurze Striche: Mediane${shaded ? '; getönt: worin ein Median liegt, rund 95 %' : ''}.`,
    marks: 'Punkte: gewertete Versuche; kurze Striche: Mediane.',
    chart: (label, counts) => `Punktdiagramm, ${label} nach Startmethode: ${counts}.`,
    kept: n => `${n} gewertet`,
    behindBy: (own, difference) => `${own}: ${difference} zurück`,
    behindBetween: (own, difference, low, high) =>
      `${own}: ${difference} zurück, zwischen ${low} und ${high}`,
    verdict: (own, verdict) => `${own}: ${verdict}`,
  },
});

export const testAgainstTestWords = catalogue({
  en: {
    allLaunches: 'all launch methods',
    marks: 'Dots: medians; lines through them: uncertainty, about 95 %, scatter included.',
    restatedMarks: 'Hollow: restated for a level road in still reference air.',
    deck: (label: string, by: string, car: string) => `${label}, ${by}: median of each test, ${car} first`,
    caption: (label: string, tests: number, by: string, rule: string, kept: readonly string[]) =>
      `${label} of ${tests} tests, ${by}, ${rule}; ${kept.join(', ')}.`,
    kept: (name: string, n: number) => `${name}: ${n} kept`,
    chart: (label: string, tests: number) => `Dot chart of ${label} of ${tests} tests.`,
    ahead: (names: readonly string[]) => `ahead of ${listed(names, 'en')}`,
    behind: (names: readonly string[]) => `behind ${listed(names, 'en')}`,
    tooClose: (names: readonly string[]) => `too close to call with ${listed(names, 'en')}`,
    notRanked: (names: readonly string[]) => `not ranked against ${listed(names, 'en')}`,
    oneAttempt: (text: string) => `${text}, one attempt`,
    medianOf: (text: string, n: number) => `${text}, median of ${n}`,
    behindBy: (text: string, apart: string) => `${text}: ${apart} behind`,
    aheadBy: (text: string, apart: string) => `${text}: ${apart} ahead`,
  },
  de: {
    allLaunches: 'alle Startmethoden',
    marks: 'Punkte: Mediane; Linien durch sie: Unsicherheit, rund 95 %, Streuung eingeschlossen.',
    restatedMarks: 'Hohl: umgerechnet auf ebene Straße und ruhende Bezugsluft.',
    deck: (label, by, car) => `${label}, ${by}: Median jedes Tests, ${car} zuerst`,
    caption: (label, tests, by, rule, kept) =>
      `${label} in ${tests} Tests, ${by}, ${rule}; ${kept.join(', ')}.`,
    kept: (name, n) => `${name}: ${n} gewertet`,
    chart: (label, tests) => `Punktdiagramm, ${label} in ${tests} Tests.`,
    ahead: names => `vor ${listed(names, 'de')}`,
    behind: names => `hinter ${listed(names, 'de')}`,
    tooClose: names => `zu eng für eine Rangfolge mit ${listed(names, 'de')}`,
    notRanked: names => `ohne Rangfolge gegenüber ${listed(names, 'de')}`,
    oneAttempt: text => `${text}, ein Versuch`,
    medianOf: (text, n) => `${text}, Median aus ${n}`,
    behindBy: (text, apart) => `${text}: ${apart} zurück`,
    aheadBy: (text, apart) => `${text}: ${apart} voraus`,
  },
});

export const splitsLadderWords = catalogue({
  en: {
    oneRun: (text: string) => `${text}, one run`,
    bestOf: (text: string, n: number) => `${text}, best of ${n}`,
    tests: (n: number) => `${n} tests`,
    launches: (n: number) => `${n} launch methods`,
    title: (who: string, quoted: boolean, label: string, time: string, others: number) =>
      `${quoted ? quotedName(who, 'en') : who}, ${label} in ${time}: rung by rung beside ${others} other ${quoted ? 'launch method' : 'test'}${others === 1 ? '' : 's'}`,
    deck: (what: string, unit: string) => `Times from rest to speeds in ${unit}, ${what}`,
    method: (speeds: readonly string[], unit: string, across: boolean) =>
      `Best kept run of each, dots at ${speeds.join(', ')} ${unit}. ${across ? 'Other days had other air and wind: a ladder ranks nobody.' : 'Single runs: a ladder ranks no method.'}`,
    caption: (what: string, rule: string) => `Splits from rest of ${what}, ${rule}.`,
    chart: 'Ladder of times from rest to speeds.',
    rung: (speed: string, time: string) => `${speed} in ${time}`,
    notRanked: (across: boolean): string =>
      across ? 'The tests are not ranked.' : 'The launch methods are not ranked.',
    tableCaption: (rule: string) => `Times from rest, ${rule}, best kept run of each`,
    to: 'To',
  },
  de: {
    oneRun: text => `${text}, eine Fahrt`,
    bestOf: (text, n) => `${text}, beste von ${n}`,
    tests: n => `${n} Tests`,
    launches: n => `${n} Startmethoden`,
    title: (who, quoted, label, time, others) =>
      `${quoted ? quotedName(who, 'de') : who}, ${label} in ${time}: Stufe für Stufe neben ${
        quoted
          ? counted(others, 'einer anderen Startmethode', `${others} anderen Startmethoden`)
          : counted(others, 'einem anderen Test', `${others} anderen Tests`)
      }`,
    deck: (what, unit) => `Zeiten aus dem Stand auf Geschwindigkeiten in ${unit}, ${what}`,
    method: (speeds, unit, across) =>
      `Jeweils beste gewertete Fahrt, Punkte bei ${speeds.join(', ')} ${unit}. ${across ? 'Andere Tage hatten andere Luft und anderen Wind: Eine Leiter ordnet niemanden.' : 'Einzelne Fahrten: Eine Leiter ordnet keine Methode.'}`,
    caption: (what, rule) => `Zwischenzeiten aus dem Stand, ${what}, ${rule}.`,
    chart: 'Leiter der Zeiten aus dem Stand auf Geschwindigkeiten.',
    rung: (speed, time) => `${speed} in ${time}`,
    notRanked: across =>
      across ? 'Die Tests sind ohne Rangfolge.' : 'Die Startmethoden sind ohne Rangfolge.',
    tableCaption: rule => `Zeiten aus dem Stand, ${rule}, jeweils beste gewertete Fahrt`,
    to: 'Auf',
  },
});
