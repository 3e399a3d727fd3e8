/** The methodology page's own words: questions, headings, tables. */
import type { ComparedCondition, ComparisonLimit } from '../../conditions/comparability.ts';
import { capital, catalogue } from '../../language.ts';
import type { BudgetSource } from '../../measurement/uncertainty.ts';
import { conditionsWords } from '../../result/words/conditions.ts';

export type GroupId =
  | 'clock'
  | 'certainty'
  | 'comparing'
  | 'weather'
  | 'reading'
  | 'driveline'
  | 'finding'
  | 'flagged';

interface LimitWords {
  readonly asks: string;
  readonly source: string;
}
type SayLimit = (limit: ComparisonLimit) => LimitWords;
const asWritten: SayLimit = ({ asks, source }) => ({ asks, source });
/** The source of the published limits of weather, as German readers know it. */
export const AUSROLLEN = 'Europäische Ausrollregeln (StVZO, Anhang, 3.9.2.3)';
const eigene =
  (asks: string): SayLimit =>
  () => ({ asks, source: 'eigene Grenze' });

export const methodologyWords = catalogue({
  en: {
    questions: {
      clock: 'When does the clock start?',
      certainty: 'What does ± mean?',
      comparing: 'Why can two tests not be compared?',
      weather: 'What about wind, slope and air?',
      reading: 'What is each figure, and how is it read?',
      driveline: 'What of gear changes and the clutch?',
      finding: 'What counts as a run?',
      flagged: 'Why is a run flagged?',
    } satisfies Record<GroupId, string>,
    whereFrom: 'Where do the rules come from?',
    twoRules: 'Two rules, both shown',
    twoRulesSaid: (house: string, headline: string, other: string) =>
      `A time from rest depends on when its clock starts. Both rules are worked out for every attempt. Headline figures of ${house} are timed with the ${headline}; the ${other} stands beside them.`,
    threshold: 'A plain threshold, which we do not use',
    thresholdSaid: (speed: string) =>
      `A clock that starts when the readings reach ${speed} leaves out what the car did before. Here is what it would have printed on the same attempts; the shortest number is not the truest.`,
    plusMinus: '± in a sentence',
    plusMinusSaid: (k: number) =>
      `Of a hundred figures printed as a value ± an uncertainty, about ninety-five have the truth between their ends: the uncertainty is expanded, k = ${k}. That of a single run says how well it was timed, not how near the car will come to it again.`,
    example: 'One time, worked out by hand',
    itsDay: 'Because a number belongs to its day',
    itsDaySaid:
      'A time belongs to its start rule, its surface, air, wind, slope and load, and to how often it was tried. Where those differ, the difference of two numbers need not be the difference of two cars. Each test says beside which others it may be set, and what stands against it.',
    everyFigure: 'Every figure',
    launchMethods: 'Launch methods by name',
    budget: {
      caption: 'What a budget of uncertainty may hold; each figure has those that apply.',
      heads: ['Item', 'What it is'],
      items: {
        start: 'Start',
        rollout: 'Rollout',
        noise: 'Noise',
        interpolation: 'Interpolation',
        sampling: 'Sampling',
        stop: 'Stop',
        receiver: 'Receiver',
        lag: 'Lag',
        position: 'Position',
        jitter: 'Jitter',
        'held-values': 'Held values',
        gap: 'Gap',
      } satisfies Record<BudgetSource, string>,
    },
    figures: {
      caption: 'Every figure that can be published. Figures from rest are given under both start rules.',
      heads: ['Figure', 'Unit', 'Start rule', 'What it is'],
      both: 'both',
      none: 'none',
    },
    launches: {
      caption: 'What the driver does, by the name that tests use.',
      heads: ['Name', 'What the driver does'],
    },
    flags: {
      caption: 'Flags, why they are raised, and from where on. Thresholds without a source are our own.',
      heads: ['Flag', 'Why', 'Raised'],
      whenever: 'whenever it is found',
    },
    likeness: {
      caption: 'What is asked of two tests before one is set against the other.',
      heads: ['Condition', 'Alike means', 'Source'],
      condition: (condition: ComparedCondition) => capital(condition.replaceAll('-', ' ')),
      limits: {
        surface: asWritten,
        temperature: asWritten,
        density: asWritten,
        wind: asWritten,
        slope: asWritten,
        'start-rule': asWritten,
        rate: asWritten,
        attempts: asWritten,
        load: asWritten,
      } satisfies Record<ComparedCondition, SayLimit>,
    },
    power: {
      caption: 'Correction of power for air, by drive.',
      heads: ['Drive', 'Correction', 'Why'],
      allowed: 'The standard is for such engines; beyond its limits there is none',
      refused: 'None',
    },
    sources: {
      name: 'Sources',
      said: 'Where a rule says so it is our own, or common practice for which we know no source.',
      caption: 'Every source, with the rules that rest on it.',
      heads: ['Source', 'Rules'],
    },
    isOurs: (source: string) => /^(our own|common practice)/i.test(source),
  },
  de: {
    questions: {
      clock: 'Wann beginnt die Zeitnahme?',
      certainty: 'Was bedeutet ±?',
      comparing: 'Warum lassen sich zwei Tests nicht vergleichen?',
      weather: 'Was ist mit Wind, Neigung und Luft?',
      reading: 'Was ist jeder Wert, und wie wird er bestimmt?',
      driveline: 'Was ist mit Schaltvorgängen und der Kupplung?',
      finding: 'Was gilt als Fahrt?',
      flagged: 'Warum ist eine Fahrt gekennzeichnet?',
    },
    whereFrom: 'Woher kommen die Regeln?',
    twoRules: 'Zwei Regeln, beide gezeigt',
    twoRulesSaid: (house, headline, other) =>
      `Eine Zeit aus dem Stand hängt davon ab, wann ihre Uhr beginnt. Beide Regeln werden für jeden Versuch berechnet. Die Hauptwerte von ${house} sind ${headline}; Werte, ${other}, stehen daneben.`,
    threshold: 'Eine einfache Schwelle, die wir nicht verwenden',
    thresholdSaid: speed =>
      `Eine Uhr, die beginnt, wenn die Messwerte ${speed} erreichen, lässt weg, was das Auto vorher tat. Hier steht, was sie bei denselben Versuchen gedruckt hätte; die kürzeste Zahl ist nicht die wahrste.`,
    plusMinus: '± in einem Satz',
    plusMinusSaid: k =>
      `Von hundert Werten, die als Wert ± Unsicherheit gedruckt sind, liegt bei etwa fünfundneunzig die Wahrheit zwischen den Enden: Die Unsicherheit ist erweitert, k = ${k}. Die einer einzelnen Fahrt sagt, wie gut sie gemessen wurde, nicht, wie nah das Auto ihr noch einmal kommt.`,
    example: 'Eine Zeit, von Hand nachgerechnet',
    itsDay: 'Weil eine Zahl zu ihrem Tag gehört',
    itsDaySaid:
      'Eine Zeit gehört zu ihrer Startregel, zu Fahrbahn, Luft, Wind, Neigung und Zuladung und dazu, wie oft es versucht wurde. Wo diese sich unterscheiden, muss der Unterschied zweier Zahlen nicht der Unterschied zweier Autos sein. Jeder Test sagt, neben welche anderen er gestellt werden darf und was dagegen spricht.',
    everyFigure: 'Jeder Wert',
    launchMethods: 'Startmethoden nach Namen',
    budget: {
      caption:
        'Was ein Unsicherheitsbudget enthalten kann; jeder Wert hat die Posten, die auf ihn zutreffen.',
      heads: ['Posten', 'Was er ist'],
      items: {
        start: 'Start',
        rollout: 'Anrollweg',
        noise: 'Rauschen',
        interpolation: 'Interpolation',
        sampling: 'Abtastung',
        stop: 'Stillstand',
        receiver: 'Empfänger',
        lag: 'Verzögerung',
        position: 'Position',
        jitter: 'Zeitstempel',
        'held-values': 'Wiederholte Messwerte',
        gap: 'Lücke',
      },
    },
    figures: {
      caption:
        'Jeder Wert, der veröffentlicht werden kann. Werte aus dem Stand werden nach beiden Startregeln angegeben.',
      heads: ['Wert', 'Einheit', 'Startregel', 'Was er ist'],
      both: 'beide',
      none: 'keine',
    },
    launches: {
      caption: 'Was der Fahrer tut, nach dem Namen, den die Tests verwenden.',
      heads: ['Name', 'Was der Fahrer tut'],
    },
    flags: {
      caption: 'Kennzeichen, warum es sie gibt und von wo an. Schwellen ohne Quelle sind unsere eigenen.',
      heads: ['Kennzeichen', 'Warum', 'Gesetzt'],
      whenever: 'wann immer es gefunden wird',
    },
    likeness: {
      caption: 'Was von zwei Tests verlangt wird, bevor einer gegen den anderen gehalten wird.',
      heads: ['Bedingung', 'Vergleichbar heißt', 'Quelle'],
      condition: condition => conditionsWords('de').condition[condition],
      limits: {
        surface: eigene('die Fahrbahn während beider Tests durchgehend im selben Zustand'),
        temperature: eigene(
          'Lufttemperaturen binnen 10 °C voneinander: Reifen, Akku und Motor arbeiten jenseits davon anders',
        ),
        density: () => ({
          asks: 'Luftdichten beide binnen 7,5 % des Bezugs, 20 °C und 100 kPa trocken, und binnen 7,5 % voneinander',
          source: `${AUSROLLEN} für die Abweichung vom Bezug; eigene Grenze für den Unterschied`,
        }),
        wind: () => ({ asks: 'ein mittlerer Wind von höchstens 3 m/s in beiden Tests', source: AUSROLLEN }),
        slope: eigene(
          'eine mittlere Neigung über alle Versuche binnen 0,1 % voneinander: 0,1 % sind 0,01 m/s² Beschleunigung',
        ),
        'start-rule': eigene('dieselbe Regel für den Beginn der Zeitnahme'),
        rate: eigene(
          'mindestens 10 Messwerte je Sekunde in beiden Tests, wofür die angegebenen Unsicherheiten nachweislich gelten',
        ),
        attempts: eigene('mindestens drei Versuche in beiden Tests'),
        load: eigene(
          'Menschen und Gepäck an Bord, über die Masse nach Herstellerangabe hinaus, binnen 50 kg voneinander',
        ),
      },
    },
    power: {
      caption: 'Korrektur der Leistung für die Luft, nach Antrieb.',
      heads: ['Antrieb', 'Korrektur', 'Warum'],
      allowed: 'Die Norm ist für solche Motoren gemacht; jenseits ihrer Grenzen gibt es keine',
      refused: 'Keine',
    },
    sources: {
      name: 'Quellen',
      said: 'Wo eine Regel es sagt, ist sie unsere eigene oder allgemein üblich, ohne dass wir eine Quelle kennen.',
      caption: 'Jede Quelle, mit den Regeln, die auf ihr beruhen.',
      heads: ['Quelle', 'Regeln'],
    },
    isOurs: source => /^(eigene|allgemein üblich)/i.test(source),
  },
});
