/** Distances and directions on the WGS 84 ellipsoid, by Karney's geodesics (J. Geodesy 87 (2013) 43). */
import geographiclib from 'geographiclib-geodesic';

const { Geodesic } = geographiclib;

/** The ellipsoid of satellite positioning (NGA.STND.0036). */
export const WGS84 = {
  semiMajorAxisM: 6_378_137,
  inverseFlattening: 298.257223563,
} as const;

const earth = new Geodesic.Geodesic(WGS84.semiMajorAxisM, 1 / WGS84.inverseFlattening);

export interface Geodesic {
  readonly distanceM: number;
  /** Direction at the first point, degrees clockwise from north, −180 to 180. */
  readonly startBearingDeg: number;
  /** Direction at the second point, on the same way. */
  readonly endBearingDeg: number;
}

/** The shortest way between two points, degrees of latitude and longitude; NaN where a coordinate is. */
export function geodesicBetween(lat1: number, lon1: number, lat2: number, lon2: number): Geodesic {
  const { s12, azi1, azi2 } = earth.Inverse(lat1, lon1, lat2, lon2);
  return {
    distanceM: s12 ?? Number.NaN,
    startBearingDeg: azi1 ?? Number.NaN,
    endBearingDeg: azi2 ?? Number.NaN,
  };
}

/** Metres between two points, degrees of latitude and longitude; NaN where a coordinate is. */
export function distanceM(lat1: number, lon1: number, lat2: number, lon2: number): number {
  return earth.Inverse(lat1, lon1, lat2, lon2, Geodesic.DISTANCE).s12 ?? Number.NaN;
}

/** Where one comes to from a point, going this way (degrees from north) this far (m). */
export function destination(
  latitudeDeg: number,
  longitudeDeg: number,
  bearingDeg: number,
  distanceM: number,
): { readonly latitudeDeg: number; readonly longitudeDeg: number } {
  const { lat2, lon2 } = earth.Direct(latitudeDeg, longitudeDeg, bearingDeg, distanceM);
  return { latitudeDeg: lat2 ?? Number.NaN, longitudeDeg: lon2 ?? Number.NaN };
}
