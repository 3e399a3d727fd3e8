/** Wind as the car meets it. */
import { degToRad } from '../units.ts';

export interface WindComponents {
  /** Positive against the car. */
  readonly headwindMps: number;
  /** Positive from the driver's right as the car faces, whichever side the wheel is on. */
  readonly crosswindMps: number;
}

/**
 * Wind along and across the car's way.
 * @param windFromDeg direction the wind comes from, as weather reports give it, degrees from north.
 * @param headingDeg direction the car goes to, degrees from the same north.
 */
export function windComponents(windMps: number, windFromDeg: number, headingDeg: number): WindComponents {
  const angle = degToRad(windFromDeg - headingDeg);
  return { headwindMps: windMps * Math.cos(angle), crosswindMps: windMps * Math.sin(angle) };
}

/** Drag with a head wind over drag in still air, at one road speed; below 0 where the wind pushes. */
export function dragRatio(speedMps: number, headwindMps: number): number {
  const ratio = (speedMps + headwindMps) / speedMps;
  return ratio * Math.abs(ratio);
}

/** Mean drag of two opposite runs over drag in still air: 1 + (w/v)², so opposite runs do not cancel wind. */
export function twoWayDragRatio(speedMps: number, headwindMps: number): number {
  return (dragRatio(speedMps, headwindMps) + dragRatio(speedMps, -headwindMps)) / 2;
}
