/** The sentence about the one test that would narrow today's doses most. */
import type { TypedMethod } from '../../core/measurement/methods.ts';
import type { WorthTesting } from '../../core/water/plan/worth.ts';
import { measureLiquid, measureSolid } from '../../core/water/measure.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { measureText } from './numbers.ts';
import { stepTitle } from './names.ts';
import { quantityInPlan } from '../quantities.ts';

const TESTS: Partial<Record<TypedMethod, string>> = { drops: 'a drop test of the', meter: 'a meter’s reading of the' };

export function worthText({ quantity, method, kind, form, now, then }: WorthTesting, units: UnitSystem): string {
  const measure = form === 'liquid' ? measureLiquid : measureSolid;
  const amount = (exact: number) => {
    const measured = measure(exact, units);
    return measured.length === 0 ? 'nothing' : measureText(measured);
  };
  const range = ([low, high]: readonly [number, number]) => `${amount(low)} to ${amount(high)}`;
  const step = stepTitle(kind);
  return `Worth it before you begin: ${TESTS[method] ?? 'a better test of the'} ${quantityInPlan(quantity)}. As things stand, “${step}” may take anything from ${range(now)} in all; after that test, if it finds what is likeliest now, ${range(then)}.`;
}
