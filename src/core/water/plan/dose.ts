/** A dose: so many mmol of a product's reagent to the whole pool, and what that is in the product. */
import { measureLiquid, measureSolid } from '../measure.ts';
import { gramsPerBucket, product } from '../products.ts';
import { perUnitOf } from './choose.ts';
import type { Known } from './spanned.ts';
import type { Amount, ArithmeticLine, ProductChoice } from './step.ts';

/** Less than this can't be measured and moves nothing: 5 mL or 5 g. */
const MIN_AMOUNT = 5;

export function isMeasurable(choice: ProductChoice, mmol: number): boolean {
  return mmol / perUnitOf(choice) >= MIN_AMOUNT;
}

/**
 * @param mmol of reagent for the whole pool, worked out for the cautious end
 * @param upToMmol what it would be if the readings' other ends were true
 * @param parts that it is split into
 */
export function amountOf(
  choice: ProductChoice,
  mmol: number,
  upToMmol: number,
  parts = 1,
  rangeFrom: Amount['rangeFrom'] = 'readings',
): Amount {
  const perUnit = perUnitOf(choice);
  const { form } = product(choice.product);
  const exact = mmol / perUnit;
  const measure = form === 'liquid' ? measureLiquid : measureSolid;
  return {
    product: choice.product,
    form,
    exact,
    upTo: Math.max(exact, upToMmol / perUnit),
    rangeFrom,
    metric: measure(exact, 'metric'),
    us: measure(exact, 'us'),
    part: { metric: measure(exact / parts, 'metric'), us: measure(exact / parts, 'us') },
    buckets: bucketsOf(choice, exact / parts),
    cost: choice.price === undefined ? null : (choice.price * exact) / 1000,
  };
}

/** Never more to a bucket than its water takes, nor more than a bucket at once. */
function bucketsOf({ product: id }: ProductChoice, grams: number): Amount['buckets'] {
  const most = gramsPerBucket(id);
  if (most === null) return null;
  const count = Math.max(1, Math.ceil(grams / most - 1e-6));
  return { gramsEach: grams / count, count };
}

/** From mmol per litre to the amount: the lines that every dose shares. */
export function amountLines(
  choice: ProductChoice,
  mmol: number,
  litres: number,
  volumeIsLowEnd: boolean,
): ArithmeticLine[] {
  const perUnit = perUnitOf(choice);
  const { form } = product(choice.product);
  return [
    { line: 'volume', litres, lowEnd: volumeIsLowEnd },
    {
      line: 'strength',
      percent: choice.strength,
      mmolPerUnit: perUnit,
      form,
      ...(choice.basis && { basis: choice.basis }),
      ...(choice.left !== undefined && { left: choice.left }),
      ...(choice.isLearnt && { isLearnt: true }),
    },
    { line: 'amount', exact: mmol / perUnit, form },
  ];
}

/** From a reading to what is missing, for what adds up by mass: worked out from the high end of the reading. */
export function massLines(
  target: 'salt' | 'cyanuric-acid' | 'calcium-hardness' | 'free-chlorine',
  known: Known,
  aim: number,
  mgPerLitre: number,
  mmolPerLitre: number,
): ArithmeticLine[] {
  return [
    { line: 'reading', reading: target, known, used: known.high },
    { line: 'aim', target, value: aim },
    { line: 'by-mass', mgPerLitre, mmolPerLitre },
  ];
}
