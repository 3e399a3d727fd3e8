/** Every reading of air, wind and surface. */
import { catalogue, listed } from '../../language.ts';

export const conditionsTableWords = catalogue({
  en: {
    caption: (road: string, readings: string) => `Conditions at ${road}, ${readings}`,
    densityBy: { 'cipm-2007': 'CIPM-2007', 'ideal-gas': 'ideal gas, Buck 1996' },
    temperature: 'Temperature',
    pressure: 'Pressure',
    humidity: 'Humidity',
    wind: 'Wind',
    windFrom: 'Wind from',
    gusts: 'Gusts',
    density: 'Air density',
    surface: 'Surface',
    note: 'Note',
    pressureNote: 'Pressure at the road, not reduced to sea level.',
    densityNote: (methods: readonly string[]) =>
      `Air density by ${listed(methods, 'en')}; given where an attempt was made under that reading.`,
    roadNote: (surface: string) => `Road: ${surface}.`,
    slopeNote: (slope: string) => `Mean slope ${slope} in the first direction.`,
    loggedSlopeNote: (slope: string, uncertainty: string, passes: number, length: string) =>
      `The road was not levelled: mean slope ${slope} ± ${uncertainty} in the first direction, from the altitude that the receiver logged on ${passes} passes over ${length} of it.`,
  },
  de: {
    caption: (road, readings) => `Bedingungen auf ${road}, ${readings}`,
    densityBy: { 'cipm-2007': 'CIPM-2007', 'ideal-gas': 'idealem Gas und Buck 1996' },
    temperature: 'Temperatur',
    pressure: 'Luftdruck',
    humidity: 'Luftfeuchte',
    wind: 'Windgeschwindigkeit',
    windFrom: 'Wind aus',
    gusts: 'Böen',
    density: 'Luftdichte',
    surface: 'Fahrbahn',
    note: 'Notiz',
    pressureNote: 'Luftdruck an der Strecke, nicht auf Meereshöhe umgerechnet.',
    densityNote: methods =>
      `Luftdichte nach ${listed(methods, 'de')}; angegeben, wo unter dieser Ablesung ein Versuch gefahren wurde.`,
    roadNote: surface => `Strecke: ${surface}.`,
    slopeNote: slope => `Mittlere Neigung ${slope} in der ersten Richtung.`,
    loggedSlopeNote: (slope, uncertainty, passes, length) =>
      `Die Strecke wurde nicht vermessen: mittlere Neigung ${slope} ± ${uncertainty} in der ersten Richtung, aus der Höhe, die der Empfänger auf ${passes} Fahrten über ${length} davon aufgezeichnet hat.`,
  },
});
