/** A test's road plan as its page shows it: places, what they come to, every assumption, and the caution first. */
import { planCautionOf } from '../result/caution.ts';
import type { House, TestResult } from '../result/result.ts';
import { testRoadPlan } from '../result/test-plan.ts';
import { planAssumptions, planFinding, roadPlanTable } from './road-plan.ts';
import type { Table } from './table.ts';

export function testPlanTable(test: TestResult, house: House): Table {
  const plan = testRoadPlan(test, house);
  const table = roadPlanTable(plan, house);
  return {
    ...table,
    notes: [
      planCautionOf(house),
      planFinding(plan, house),
      ...table.notes,
      ...planAssumptions(plan, house).map(({ name, says }) => `${name}: ${says}.`),
    ],
  };
}
