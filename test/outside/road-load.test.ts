import {
  balanceSpeedMps,
  handbookRollingResistance,
  roadLoad,
  rotatingMassFactor,
} from '../../pipeline/road/road-load.ts';
import { kmhToMps, mpsToKmh } from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const carOf = ({ m, f, CdA }: { m: number; f: number; CdA: number }) => ({
  massKg: m,
  rollingResistance: f,
  dragAreaM2: CdA,
});
const massFactor = (entry: CheckValue): void => expectWithin(rotatingMassFactor(entry.inputs.i), entry);

describeCheckValues('road load', {
  'dyn.roadload': entry => {
    const speed = kmhToMps(100);
    const { rho, grade } = entry.inputs;
    const load = roadLoad(carOf(entry.inputs), speed, { densityKgm3: rho }, grade);
    expectWithin(
      {
        roll: load.rollingN,
        aero: load.dragN,
        grade: load.gradeN,
        total: load.totalN,
        kW: (load.totalN * speed) / 1000,
      },
      entry,
    );
  },
  'dyn.vmax': entry => {
    const { rho, P } = entry.inputs;
    expectWithin(mpsToKmh(balanceSpeedMps(carOf(entry.inputs), P, { densityKgm3: rho })), entry);
  },
  'dyn.grade1pct': entry => {
    const car = { massKg: 1, rollingResistance: 0, dragAreaM2: 0 };
    expectWithin(roadLoad(car, 10, { densityKgm3: 1.2 }, 0.01).gradeN, entry);
  },
  'dyn.massfactor.1': massFactor,
  'dyn.massfactor.4': massFactor,
  'dyn.massfactor.8': massFactor,
  'dyn.massfactor.12': massFactor,
  'dyn.rrc-formula': entry =>
    expectWithin(handbookRollingResistance(entry.inputs.p * 1e5, kmhToMps(entry.inputs.v)), entry),
});
