/** Acceleration over speed. */
import { catalogue } from '../../language.ts';

export const accelerationWords = catalogue({
  en: {
    axis: 'acceleration, m/s²',
    peak: (value: string) => `peak ${value}`,
    even: (car: string, value: string, speed: string) =>
      `The ${car} pulls evenly, near ${value}, up to about ${speed}`,
    hardest: (car: string, speed: string) => `The ${car} pulls hardest near ${speed}`,
    hardestThenHalf: (car: string, speed: string, half: string) =>
      `The ${car} pulls hardest near ${speed}; by ${half} half of it is left`,
    method: (windows: readonly string[]) =>
      `Acceleration: slope of a straight line through the readings of ${windows.join('\u00a0s or ')}\u00a0s, the first of them from first movement on.`,
    deck: (car: string, choice: string) => `Acceleration over speed, ${car}: ${choice}`,
    caption: (attempts: string) => `Acceleration over speed of ${attempts}.`,
    chart: 'Line chart of acceleration over speed.',
    run: (name: string, most: string, where: string, last: string, end: string) =>
      `${name}: at most ${most} near ${where}, ${last} at ${end}.`,
    published: (name: string, value: string) => `The published peak of ${name} is ${value}.`,
    tableCaption: (unit: string) => `Acceleration at every 10 ${unit}`,
  },
  de: {
    axis: 'Beschleunigung in m/s²',
    peak: value => `max. ${value}`,
    even: (car, value, speed) => `${car} zieht gleichmäßig mit rund ${value}, bis etwa ${speed}`,
    hardest: (car, speed) => `${car} zieht bei rund ${speed} am stärksten`,
    hardestThenHalf: (car, speed, half) =>
      `${car} zieht bei rund ${speed} am stärksten; bei ${half} ist noch die Hälfte übrig`,
    method: windows =>
      `Beschleunigung: Steigung einer Geraden durch die Messwerte von ${windows.join('\u00a0s oder ')}\u00a0s, der erste ab der ersten Bewegung.`,
    deck: (car, choice) => `Beschleunigung über der Geschwindigkeit, ${car}: ${choice}`,
    caption: attempts => `Beschleunigung über der Geschwindigkeit, ${attempts}.`,
    chart: 'Liniendiagramm der Beschleunigung über der Geschwindigkeit.',
    run: (name, most, where, last, end) =>
      `${name}: höchstens ${most} bei rund ${where}, ${last} bei ${end}.`,
    published: (name, value) => `Der veröffentlichte Höchstwert von ${name} beträgt ${value}.`,
    tableCaption: unit => `Beschleunigung alle 10 ${unit}`,
  },
});
