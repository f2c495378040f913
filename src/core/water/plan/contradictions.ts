/** Readings that can't belong to one water: sentences instead of a plan. */
import type { PlanInput } from '../../pool/schema.ts';
import { checkWater } from '../check.ts';
import type { KnownWater } from './known.ts';
import type { PlanIssue } from './types.ts';

/** For waters so far out that the chemistry gives no number for them or for what a step would make of them. */
export const BEYOND: PlanIssue = {
  code: 'too-concentrated',
  where: 'readings',
  message: 'these readings lie beyond what can be worked out here: test them again',
};

export function contradictions(input: PlanInput, known: KnownWater): PlanIssue[] {
  return [...chlorines(input, known), ...hardness(input), ...equilibrium(known)];
}

function chlorines({ readings }: PlanInput, known: KnownWater): PlanIssue[] {
  const total = known['total-chlorine'];
  const free = known['free-chlorine'];
  if (!readings['free-chlorine'] || !total || total.high >= free.low) return [];
  return [
    {
      code: 'total-below-free',
      where: 'readings, total-chlorine',
      message: `total chlorine (${total.value} mg/L) can't be less than free chlorine (${free.value} mg/L): test both again`,
    },
  ];
}

function hardness({ readings }: PlanInput): PlanIssue[] {
  const calcium = readings['calcium-hardness'];
  const total = readings['total-hardness'];
  if (!calcium || !total || (calcium.low ?? calcium.value) <= (total.high ?? total.value)) return [];
  return [
    {
      code: 'calcium-above-total',
      where: 'readings, calcium-hardness',
      message: `calcium hardness (${calcium.value} mg/L) can't be more than total hardness (${total.value} mg/L): test both again`,
    },
  ];
}

function equilibrium(known: KnownWater): PlanIssue[] {
  const ph = known.ph.value;
  const alkalinity = known['total-alkalinity'].value;
  const issues = checkWater({
    ph,
    totalAlkalinity: alkalinity,
    calciumHardness: known['calcium-hardness'].value,
    temperatureC: known.temperature.value,
    salt: known.salt.value,
    cyanuricAcid: known['cyanuric-acid'].value,
    boron: known.boron.value,
    freeChlorine: known['free-chlorine'].value,
  });
  return issues.map(({ code }): PlanIssue => {
    switch (code) {
      case 'too-little-alkalinity':
        return {
          code: 'alkalinity-too-low-for-ph',
          where: 'readings, total-alkalinity',
          message: `no water has pH ${ph} with a total alkalinity of ${alkalinity} mg/L${
            known['cyanuric-acid'].value > 0 ? ` and ${known['cyanuric-acid'].value} mg/L of stabilizer` : ''
          }: test both again`,
        };
      case 'too-much-carbon-dioxide':
        return {
          code: 'ph-too-low-for-alkalinity',
          where: 'readings, ph',
          message: `pH ${ph} with a total alkalinity of ${alkalinity} mg/L would be fizzing like soda water: test both again`,
        };
      default:
        return BEYOND;
    }
  });
}
