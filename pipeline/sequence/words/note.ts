/** The note beside a sequence. Lines of about 80 characters; facts stand in a column of their own. */
import { catalogue } from '../../language.ts';

/** A fact of the sequence, its head in one column and its lines in the next. */
export type NoteFact = readonly [head: string, ...lines: string[]];

export const sequenceNoteWords = catalogue({
  en: {
    title: (car: string, attempt: number) =>
      `${car}, attempt ${attempt}: clock, speed and distance for video`,
    pictures: (pattern: string, first: number, last: number): NoteFact => [
      'Pictures',
      `${pattern}, ${first} to ${last} (${last - first + 1} frames)`,
    ],
    size: (width: number, height: number): NoteFact => ['Size', `${width} x ${height} pixels, square`],
    rate: (name: string, exactly: string | undefined, counting: string): NoteFact => [
      'Rate',
      `${name} frames per second${exactly === undefined ? '' : ` (exactly ${exactly})`}, ${counting} timecode`,
    ],
    colour: ['Colour', 'sRGB, 8 bits a channel'] as NoteFact,
    alpha: [
      'Alpha',
      'straight (not premultiplied). If edges look dark or light, the editing',
      'program has taken it for premultiplied: set it to straight.',
    ] as NoteFact,
    place: (area: string, standard: string): NoteFact => [
      'Place',
      `${area} (${standard}),`,
      'in the lower quarter',
    ],
    frame: (frame: number, label: string) => `frame ${frame}, ${label}`,
    moves: (at: string, clip: string | undefined): readonly string[] => [
      `The car moves at ${at}${clip === undefined ? '' : ` of ${clip}`}.`,
      'That frame is the first on which the car has moved, and is taken as the instant of',
      'first movement: the picture cannot tell it more finely than one frame.',
      'The number in a file name is the frame of the clip it belongs to.',
    ],
    rule: (rule: string): NoteFact => ['Start rule', `${rule}; it stands over the clock in every frame`],
    clock: (stops: string): NoteFact => [
      'Clock',
      'the time that has passed at the beginning of the frame, cut and not',
      `rounded; from ${stops},`,
      'it stands at the published figure, rounded as it is in print',
    ],
    speed: ['Speed', 'from the recorded speeds around the instant, whole units that are passed'] as NoteFact,
    distance: [
      'Distance',
      'the integral of speed from where the clock starts, whole metres passed',
      '(a dash where the log has no readings: nothing is filled in)',
    ] as NoteFact,
    splitsHeld: (frames: number): NoteFact => [
      'Splits',
      `set off for ${frames} frames, or until the next; the clock goes on`,
    ],
    splits: ['Splits', 'filled in as they are reached; the clock goes on'] as NoteFact,
    caution: [
      'Acceleration, braking and top-speed tests are dangerous. These figures come from a',
      'closed road, with permission. They are not a clearance to drive.',
    ] as readonly string[],
  },
  de: {
    title: (car, attempt) => `${car}, Versuch ${attempt}: Uhr, Geschwindigkeit und Weg für den Film`,
    pictures: (pattern, first, last) => [
      'Bilder',
      `${pattern}, ${first} bis ${last} (${last - first + 1} Bilder)`,
    ],
    size: (width, height) => ['Größe', `${width} x ${height} Pixel, quadratisch`],
    rate: (name, exactly, counting) => [
      'Bildrate',
      `${name.replace('.', ',')} Bilder je Sekunde${exactly === undefined ? '' : ` (genau ${exactly})`}, Timecode ${counting}`,
    ],
    colour: ['Farbe', 'sRGB, 8 Bit je Kanal'],
    alpha: [
      'Alpha',
      'gerade (nicht vormultipliziert). Wirken Kanten dunkel oder hell, hat das',
      'Schnittprogramm es für vormultipliziert gehalten: auf gerade stellen.',
    ],
    place: (area, standard) => ['Platz', `${area} (${standard}),`, 'im unteren Viertel'],
    frame: (frame, label) => `Bild ${frame}, ${label}`,
    moves: (at, clip) => [
      `Das Auto bewegt sich ab ${at}${clip === undefined ? '' : ` von ${clip}`}.`,
      'Dieses Bild ist das erste, auf dem sich das Auto bewegt hat, und gilt als Augenblick',
      'der ersten Bewegung: Feiner als ein Bild kann der Film sie nicht zeigen.',
      'Die Nummer im Dateinamen ist das Bild des Clips, zu dem es gehört.',
    ],
    rule: rule => ['Startregel', `${rule}; sie steht in jedem Bild über der Uhr`],
    clock: stops => [
      'Uhr',
      'die bis zum Beginn des Bildes vergangene Zeit, abgeschnitten und nicht',
      `gerundet; ab ${stops},`,
      'steht sie auf dem veröffentlichten Wert, gerundet wie im Druck',
    ],
    speed: ['Tempo', 'aus den aufgezeichneten Geschwindigkeiten um den Augenblick, volle Einheiten'],
    distance: [
      'Weg',
      'das Integral der Geschwindigkeit ab dem Beginn der Zeitnahme, volle Meter',
      '(ein Strich, wo das Log keine Messwerte hat: nichts wird ergänzt)',
    ],
    splitsHeld: frames => [
      'Zwischenzeit',
      `${frames} Bilder lang hervorgehoben oder bis zur nächsten; die Uhr läuft weiter`,
    ],
    splits: ['Zwischenzeit', 'erscheint, sobald sie erreicht ist; die Uhr läuft weiter'],
    caution: [
      'Beschleunigungs-, Brems- und Höchstgeschwindigkeitstests sind gefährlich. Diese Werte stammen',
      'von einer abgesperrten Strecke, mit Erlaubnis. Sie sind keine Freigabe zum Fahren.',
    ],
  },
});
