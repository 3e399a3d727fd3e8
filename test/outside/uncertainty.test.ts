import { fitLine } from '../../pipeline/compare/line-fit.ts';
import { propagate } from '../../pipeline/compare/monte-carlo.ts';
import { correlation, meanOf, repeatsOf } from '../../pipeline/compare/repeats.ts';
import { studentTFactor } from '../../pipeline/compare/student-t.ts';
import {
  combine,
  effectiveDegreesOfFreedom,
  firstOrderUncertainty,
  rectangular,
  standardUncertaintyOfMean,
  triangular,
} from '../../pipeline/compare/uncertainty.ts';
import { describeCheckValues, expectWithin } from './check-values.ts';

/** Half a coverage interval and the standard uncertainty of a sum drawn two million times. */
const drawn = (model: Parameters<typeof propagate>[0]): { u: number; half: number } => {
  const { standardUncertainty, low, high } = propagate(model, { seed: 101, draws: 2_000_000 });
  return { u: standardUncertainty, half: (high - low) / 2 };
};
const ROOT3 = Math.sqrt(3);

describeCheckValues('uncertainty', {
  'gum.4.4.3': entry => {
    const { mean, sd } = repeatsOf(entry.inputs.t);
    expectWithin({ mean, s: sd, sm: standardUncertaintyOfMean(entry.inputs.t) }, entry);
  },
  'gum.4.4.5': entry =>
    expectWithin({ rect: rectangular(entry.inputs.a), tri: triangular(entry.inputs.a) }, entry),
  'gum.h1': entry => {
    const { u, nu } = entry.inputs as { u: number[]; nu: number[] };
    const uc = combine(u);
    const veff = effectiveDegreesOfFreedom(
      u.map((uncertainty, i) => ({ uncertainty, degreesOfFreedom: nu[i]! })),
    );
    // H.1.6 takes the rounded 32 nm and the next lower whole number of degrees of freedom; H.1.7 adds the
    // second-order terms, 11.7 nm and 1.7 nm.
    const U99 = studentTFactor(0.99, Math.floor(veff)) * Math.round(uc);
    expectWithin({ uc, veff, U99, uc_2nd: combine([uc, 11.7, 1.7]) }, entry);
  },
  'gum.h2': entry => {
    const { V, I_mA, phi } = entry.inputs as { V: number[]; I_mA: number[]; phi: number[] };
    const series = [V, I_mA.map(milliamperes => milliamperes / 1000), phi];
    const means = series.map(meanOf);
    const covariances = series.map(a =>
      series.map(b => correlation(a, b) * standardUncertaintyOfMean(a) * standardUncertaintyOfMean(b)),
    );
    const resistance = ([v = 0, i = 1, p = 0]: readonly number[]): number => (v / i) * Math.cos(p);
    const reactance = ([v = 0, i = 1, p = 0]: readonly number[]): number => (v / i) * Math.sin(p);
    const impedance = ([v = 0, i = 1]: readonly number[]): number => v / i;
    const uncertainty = (model: (x: readonly number[]) => number): number =>
      firstOrderUncertainty(model, means, covariances);
    expectWithin(
      {
        R: resistance(means),
        uR: uncertainty(resistance),
        X: reactance(means),
        uX: uncertainty(reactance),
        Z: impedance(means),
        uZ: uncertainty(impedance),
        r_VI: correlation(V, I_mA),
        r_Vphi: correlation(V, phi),
        r_Iphi: correlation(I_mA, phi),
      },
      entry,
    );
  },
  'gum.h3': entry => {
    const { t, b } = entry.inputs as { t: number[]; b: number[] };
    const line = fitLine(
      t.map(temperature => temperature - 20),
      b,
    );
    const at30 = line.at(10);
    expectWithin(
      {
        y1: line.intercept,
        u1: line.interceptUncertainty,
        y2: line.slope,
        u2: line.slopeUncertainty,
        r: line.correlation,
        s: line.residualSd,
        b30: at30.value,
        u30: at30.uncertainty,
      },
      entry,
    );
  },
  'mc.9.2.2': entry =>
    expectWithin(
      drawn(d => d.normal(0, 1) + d.normal(0, 1) + d.normal(0, 1) + d.normal(0, 1)),
      entry,
    ),
  // The entry is exact to 1e-6; draws reach the three digits that JCGM 101 prints (3.88).
  'mc.9.2.3': entry => {
    const one = (d: { rectangular(low: number, high: number): number }): number =>
      d.rectangular(-ROOT3, ROOT3);
    expectWithin(
      drawn(d => one(d) + one(d) + one(d) + one(d)),
      entry,
      { abs: 0.005 },
    );
  },
  // Exact to 0.001; draws reach the three digits that JCGM 101 prints (10.1 and 17.0).
  'mc.9.2.4': entry => {
    expectWithin(
      drawn(
        d =>
          d.rectangular(-ROOT3, ROOT3) +
          d.rectangular(-ROOT3, ROOT3) +
          d.rectangular(-ROOT3, ROOT3) +
          d.rectangular(-10 * ROOT3, 10 * ROOT3),
      ),
      entry,
      { abs: 0.02 },
    );
  },
  'mc.9.3': entry => {
    const { rho_a0, m_nom } = entry.inputs;
    const mass = (mrc: number, dmrc: number, air: number, weight: number, reference: number): number =>
      (mrc + dmrc) * (1 + (air - rho_a0) * (1 / weight - 1 / reference)) - m_nom;
    const result = propagate(
      d =>
        mass(
          d.normal(100_000, 0.05),
          d.normal(1.234, 0.02),
          d.rectangular(1.1, 1.3),
          d.rectangular(7000, 9000),
          d.rectangular(7950, 8050),
        ),
      { seed: 101, draws: 1_000_000 },
    );
    const variance = [0.05, 0.02, rectangular(0.1), rectangular(1000), rectangular(50)].map(u => u * u);
    expectWithin(
      {
        mean: result.mean,
        u: result.standardUncertainty,
        lo: result.shortestLow,
        hi: result.shortestHigh,
        gum_first_order_u: firstOrderUncertainty(
          ([a = 0, b = 0, c = 0, d = 1, e = 1]) => mass(a, b, c, d, e),
          [100_000, 1.234, 1.2, 8000, 8000],
          variance.map((v, i) => variance.map((_, j) => (i === j ? v : 0))),
        ),
      },
      entry,
    );
  },
});
