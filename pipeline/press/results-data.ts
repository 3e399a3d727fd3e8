/** The results of a test for other programs: unrounded, SI units in the names, nothing left out. */

import { coastDownRefusalInWords } from '../conditions/coast-down-words.ts';
import { powerInWords } from '../conditions/power-words.ts';
import { REFERENCE_AIR } from '../conditions/reference.ts';
import { START_RULES } from '../content/schema.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { TestCoastDowns } from '../result/coast-downs.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import type { Attempt, MeasureId, Publication, TestResult } from '../result/result.ts';

const UNIT_NAME = { s: 's', m: 'm', 'm/s': 'mps', 'm/s²': 'mps2' } as const;

interface Figure {
  readonly attempt: Attempt;
  readonly measure: MeasureId;
  readonly startRule: string;
  readonly value: number;
  readonly uncertainty: number | undefined;
  readonly unit: string;
}

/** Every figure of an attempt; those from rest once for each start rule. */
function figuresOf(attempt: Attempt): readonly Figure[] {
  return measureIds.flatMap(id => {
    const measure = MEASURES[id];
    const rules = measure.fromRest ? START_RULES : [undefined];
    return rules.flatMap(rule => {
      const measured = measure.valueOf(attempt.measurement, rule);
      if (measured === undefined) return [];
      const { value, uncertainty } = measured;
      return [
        { attempt, measure: id, startRule: rule ?? '', value, uncertainty, unit: UNIT_NAME[measure.unit] },
      ];
    });
  });
}

/** One object: the test, its conditions as noted, the logs' hashes, and each attempt with its figures. */
export function resultsToJson(test: TestResult, { house }: Publication): string {
  const { content } = test;
  const data = {
    test: test.id,
    title: content.title,
    publication: house.name,
    licence: house.licence,
    car: { ...test.car, as_tested: content.as_tested },
    road: test.road,
    date: content.date,
    time_zone: content.time_zone,
    receiver: content.receiver,
    headline_start_rule: house.headline_start_rule,
    uncertainty: 'expanded, k = 2, after JCGM 100',
    restated_for: {
      slope: 0,
      wind_mps: 0,
      temperature_k: REFERENCE_AIR.temperatureK,
      pressure_pa: REFERENCE_AIR.pressurePa,
      relative_humidity: REFERENCE_AIR.relativeHumidity,
    },
    conditions_noted: content.conditions,
    logs_sha256: test.logSha256,
    ...(test.coastDowns === undefined ? {} : { coasting: coastingOf(test.coastDowns) }),
    attempts: test.attempts.map(attempt => ({
      id: attempt.id,
      at: attempt.at,
      kind: attempt.measurement.run.kind,
      ...(attempt.launchId === undefined ? {} : { launch: attempt.launchId }),
      ...(attempt.directionId === undefined ? {} : { direction: attempt.directionId }),
      ...(attempt.note === undefined ? {} : { note: attempt.note }),
      kept: attempt.setAside === undefined,
      ...(attempt.setAside === undefined ? {} : { set_aside: attempt.setAside }),
      log: attempt.log,
      begins_s: attempt.measurement.beginsS,
      ends_s: attempt.measurement.endsS,
      conditions: attempt.conditions,
      flags: attempt.measurement.flags.map(({ code, text }) => ({ code, text })),
      figures: figuresOf(attempt).map(({ measure, startRule, value, uncertainty, unit }) => ({
        measure,
        ...(startRule === '' ? {} : { start_rule: startRule }),
        [`value_${unit}`]: value,
        ...(uncertainty === undefined ? {} : { [`uncertainty_${unit}`]: uncertainty }),
      })),
      ...(attempt.restated === undefined ? {} : { restated: restatedOf(attempt) }),
    })),
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

/** Each coast-down, and what they give together; or why they give nothing. */
function coastingOf({ runs, densityKgm3, answer }: TestCoastDowns): object {
  return {
    coast_downs: runs.map(({ log, at, directionId, fromMps, toMps, lastsS }) => ({
      log,
      ...(at === undefined ? {} : { at }),
      direction: directionId,
      from_mps: fromMps,
      to_mps: toMps,
      lasts_s: lastsS,
    })),
    ...(densityKgm3 === undefined ? {} : { air_density_kgm3: densityKgm3 }),
    ...(answer?.decided === true
      ? {
          drag_area_m2: answer.estimate.dragAreaM2,
          drag_area_uncertainty_m2: COVERAGE_FACTOR * answer.estimate.dragAreaStandardM2,
          rolling_resistance: answer.estimate.rollingResistance,
          rolling_resistance_uncertainty: COVERAGE_FACTOR * answer.estimate.rollingResistanceStandard,
        }
      : {}),
    ...(answer?.decided === false ? { not_worked_out: coastDownRefusalInWords(answer.reason, 'en') } : {}),
  };
}

/** Figures on the reference road, what each condition changed, and what is uncertain; or why there are none. */
function restatedOf(attempt: Attempt): object {
  const { notRestated, power } = attempt.restated!;
  return {
    ...(power === undefined ? {} : { power: powerInWords(power, 'en') }),
    ...(notRestated === undefined ? {} : { not_restated: notRestated.text }),
    figures: figuresOf(attempt).flatMap(({ measure, startRule }) => {
      const rule = START_RULES.find(known => known === startRule);
      const restated = restatedFigure(attempt, {
        measure,
        ...(rule === undefined ? {} : { startRule: rule }),
      });
      if (restated === undefined) return [];
      const { timeS, uncertaintyS, changesS } = restated;
      return [
        {
          measure,
          ...(startRule === '' ? {} : { start_rule: startRule }),
          value_s: timeS,
          uncertainty_s: uncertaintyS,
          changed_by_s: changesS,
        },
      ];
    }),
  };
}

/** One figure a line (RFC 4180). An empty cell is a thing not known or not asked. */
export function resultsToCsv(test: TestResult): string {
  const header = 'attempt,at,launch,direction,kept,measure,start_rule,value,uncertainty_k2,unit';
  const rows = test.attempts
    .flatMap(figuresOf)
    .map(({ attempt, measure, startRule, value, uncertainty, unit }) =>
      [
        attempt.id,
        attempt.at,
        attempt.launchId ?? '',
        attempt.directionId ?? '',
        attempt.setAside === undefined ? 'yes' : 'no',
        measure,
        startRule,
        value,
        uncertainty ?? '',
        unit,
      ].join(','),
    );
  return `${[header, ...rows].join('\r\n')}\r\n`;
}
