import { destination, distanceM, geodesicBetween, WGS84 } from '../../pipeline/geodesy.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const inverse = (entry: CheckValue): void => {
  const { lat1, lon1, lat2, lon2 } = entry.inputs;
  const way = geodesicBetween(lat1, lon1, lat2, lon2);
  expectWithin({ s12: way.distanceM, azi1: way.startBearingDeg, azi2: way.endBearingDeg }, entry);
};

describeCheckValues('geodesy', {
  'geo.wgs84': entry => expectWithin({ a: WGS84.semiMajorAxisM, inv_f: WGS84.inverseFlattening }, entry),
  'geo.karney.1': inverse,
  'geo.karney.2': inverse,
  'geo.karney.3': inverse,
  // GRS 80 and WGS 84 differ by 0.1 mm in the shorter axis: nothing in a millimetre over 55 km.
  'geo.vincenty': entry => {
    const { lat1, lon1, lat2, lon2 } = entry.inputs;
    const way = geodesicBetween(lat1, lon1, lat2, lon2);
    expectWithin(
      {
        s12: way.distanceM,
        az12: (way.startBearingDeg + 360) % 360,
        az21: (way.endBearingDeg + 180 + 360) % 360,
      },
      entry,
    );
  },
  'geo.equator-1deg': entry => expectWithin(distanceM(0, 0, 0, 1), entry),
  'geo.quarter-meridian': entry => expectWithin(distanceM(0, 12, 90, 12), entry),
  // Distances of the two legs; the pipeline has no spherical formula to be wrong by.
  'geo.haversine-bias': entry => {
    const { lat, dlon, dlat } = entry.inputs;
    expectWithin(
      {
        ew_geodesic_m: distanceM(lat, 0, lat, dlon),
        ns_geodesic_m: distanceM(lat, 0, lat + dlat, 0),
      },
      entry,
    );
  },
  'geo.dest': entry => {
    const { lat, lon, azi, s } = entry.inputs;
    const there = destination(lat, lon, azi, s);
    expectWithin({ lat: there.latitudeDeg, lon: there.longitudeDeg }, entry);
  },
});
