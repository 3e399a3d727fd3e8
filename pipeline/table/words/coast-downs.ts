/** What coasting tells of the car. */
import { catalogue } from '../../language.ts';

export const coastDownWords = catalogue({
  en: {
    heading: 'Drag and rolling resistance by coasting',
    caption: (mass: string, there: number, back: number, rule: string) =>
      `Drag area and rolling resistance as worked out from coasting out of gear at ${mass}, ${there} coast-downs one way and ${back} the other${rule}`,
    at: (density: string) => `, in air of ${density}`,
    what: 'What',
    byCoasting: 'By coasting',
    uncertainty: 'Uncertainty',
    stated: 'Stated for the car',
    dragArea: 'Drag area',
    rolling: 'Rolling resistance over weight',
    headwind: (direction: string) => `Wind against a car going ${direction}`,
    slope: (direction: string) => `Mean rise ${direction}`,
    uncertaintyNote:
      'Uncertainty: expanded, k = 2 (about 95 %), from the spread when each coast-down is left out in turn, from the mass, and from a road that may steepen along its length, which looks like drag both ways. Wind and rise are what tells the two directions apart; no uncertainty is stated for them.',
    runs: (listed: string) => `Coast-downs: ${listed}.`,
    run: (direction: string, at: string, from: string, to: string, time: string) =>
      `${direction}${at}, ${from} to ${to} in ${time}`,
    clock: (at: string) => ` at ${at}`,
    few: (advised: number) =>
      `Rules for coasting ask for ${advised} each way; these are fewer, and the uncertainty says what they are worth.`,
    used: 'Restated figures of this test use them in place of the stated values.',
    notUsed: 'They are shown beside the stated values; restated figures use the stated values.',
    undecided: (reason: string) => `Nothing is worked out from them: ${reason}.`,
    noDensity: 'the density of the air is not known',
    none: 'The log taken coasting does not hold the coast-downs that were noted.',
  },
  de: {
    heading: 'Luft- und Rollwiderstand durch Ausrollen',
    caption: (mass, there, back, rule) =>
      `Luftwiderstandsfläche und Rollwiderstand, berechnet aus dem Ausrollen ohne Gang bei ${mass}, ${there} Ausrollfahrten in der einen und ${back} in der anderen Richtung${rule}`,
    at: density => `, in Luft von ${density}`,
    what: 'Was',
    byCoasting: 'Durch Ausrollen',
    uncertainty: 'Unsicherheit',
    stated: 'Für das Auto angegeben',
    dragArea: 'Luftwiderstandsfläche',
    rolling: 'Rollwiderstand durch Gewichtskraft',
    headwind: direction => `Wind gegen ein Auto ${direction}`,
    slope: direction => `Mittlerer Anstieg ${direction}`,
    uncertaintyNote:
      'Unsicherheit: erweitert, k = 2 (rund 95 %), aus der Streuung, wenn jede Ausrollfahrt einmal weggelassen wird, aus der Masse und aus einer Strecke, die auf ihrer Länge steiler werden kann, was in beiden Richtungen wie Luftwiderstand aussieht. Wind und Anstieg sind, was die beiden Richtungen unterscheidet; für sie ist keine Unsicherheit angegeben.',
    runs: listed => `Ausrollfahrten: ${listed}.`,
    run: (direction, at, from, to, time) => `${direction}${at}, von ${from} auf ${to} in ${time}`,
    clock: at => ` um ${at}`,
    few: advised =>
      `Ausrollregeln verlangen ${advised} je Richtung; dies sind weniger, und die Unsicherheit sagt, was sie wert sind.`,
    used: 'Umgerechnete Werte dieses Tests verwenden sie anstelle der angegebenen.',
    notUsed: 'Sie stehen neben den angegebenen Werten; umgerechnete Werte verwenden die angegebenen.',
    undecided: reason => `Aus ihnen wird nichts berechnet: ${reason}.`,
    noDensity: 'die Luftdichte ist nicht bekannt',
    none: 'Das beim Ausrollen aufgezeichnete Protokoll enthält die notierten Ausrollfahrten nicht.',
  },
});
