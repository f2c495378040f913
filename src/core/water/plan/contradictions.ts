/** Readings that can't belong to one water: what is wrong instead of a plan. */
import type { PlanInput } from '../../pool/schema.ts';
import { checkWater } from '../check.ts';
import type { KnownWater } from './known.ts';
import type { PlanIssue } from './types.ts';

/** For waters so far out that the chemistry gives no number for them or for what a step would make of them. */
export const BEYOND: PlanIssue = { code: 'too-concentrated', path: ['readings'] };

export function contradictions(input: PlanInput, known: KnownWater): PlanIssue[] {
  return [...chlorines(input, known), ...hardness(input), ...equilibrium(known)];
}

function chlorines({ readings }: PlanInput, known: KnownWater): PlanIssue[] {
  const total = known['total-chlorine'];
  const free = known['free-chlorine'];
  if (!readings['free-chlorine'] || !total || total.high >= free.low) return [];
  return [{ code: 'total-below-free', path: ['readings', 'total-chlorine'], total: total.value, free: free.value }];
}

function hardness({ readings }: PlanInput): PlanIssue[] {
  const calcium = readings['calcium-hardness'];
  const total = readings['total-hardness'];
  if (!calcium || !total || (calcium.low ?? calcium.value) <= (total.high ?? total.value)) return [];
  return [
    { code: 'calcium-above-total', path: ['readings', 'calcium-hardness'], calcium: calcium.value, total: total.value },
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
          path: ['readings', 'total-alkalinity'],
          ph,
          alkalinity,
          cyanuricAcid: known['cyanuric-acid'].value,
        };
      case 'too-much-carbon-dioxide':
        return { code: 'ph-too-low-for-alkalinity', path: ['readings', 'ph'], ph, alkalinity };
      default:
        return BEYOND;
    }
  });
}
