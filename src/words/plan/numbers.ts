/** Numbers as a person reads them: no more figures than the thing is worth. */
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { Measure } from '../../core/water/measure.ts';
import { convert, convertTemperature, type UnitSystem } from '../../core/water/units.ts';
import type { Known, Span } from '../../core/water/plan/spanned.ts';
import { countText } from '../grammar.ts';
import { numberText } from '../numbers.ts';
import type { Amount } from '../../core/water/plan/step.ts';

type Round = (value: number) => number;

/** @param round Math.floor and Math.ceil for the ends of a measured span, which must not claim more than was found */
export function fixed(value: number, decimals: number, round: Round = Math.round): string {
  return numberText(rounded(value, 10 ** -decimals, round), { decimals });
}

/** To a step; rounded to 12 figures first, so that a binary fraction's error doesn't cost a whole step. */
function rounded(value: number, step: number, round: Round): number {
  return round(Number((value / step).toPrecision(12))) * step;
}

/** Active chlorine, mg/L: '0.025', '0.84', '2.0'. Its constants aren't known to more than two figures. */
export function activeNumber(value: number): string {
  return fixed(value, value < 0.1 ? 3 : value < 1 ? 2 : 1);
}

/** As measured or asked for: pH to the hundredth where it matters. */
export function givenNumber(
  reading: QuantityId | 'combined-chlorine',
  value: number,
  units: UnitSystem,
  round: Round = Math.round,
): string {
  if (reading !== 'ph') return readingNumber(reading, value, units, round);
  return fixed(value, 2, round).replace(/0$/, '');
}

/** A predicted value without unit. */
export function readingNumber(
  reading: QuantityId | 'combined-chlorine',
  value: number,
  units: UnitSystem,
  round: Round = Math.round,
): string {
  switch (reading) {
    case 'ph':
    case 'free-chlorine':
    case 'total-chlorine':
    case 'combined-chlorine':
      return fixed(value, 1, round);
    case 'salt':
      return numberText(rounded(value, 10, round));
    case 'temperature':
      return fixed(convertTemperature(value, 'C', units === 'us' ? 'F' : 'C'), 0, round);
    default:
      return fixed(value, 0, round);
  }
}

export function readingUnit(reading: QuantityId | 'combined-chlorine', units: UnitSystem): string {
  if (reading === 'ph') return '';
  if (reading === 'temperature') return units === 'us' ? ' °F' : ' °C';
  return ' mg/L';
}

/** '7.4', or '7.4 (7.3 to 7.6)' where the ends differ as shown. */
export function spanText(span: Span, show: (value: number) => string): string {
  const [value, low, high] = [show(span.value), show(span.low), show(span.high)];
  return low === high ? value : `${value} (${low} to ${high})`;
}

export function readingSpan(reading: QuantityId | 'combined-chlorine', span: Span, units: UnitSystem): string {
  return spanText(span, (value) => readingNumber(reading, value, units)) + readingUnit(reading, units);
}

/** How the lower and the upper end of what is known are rounded: a measured span must not look narrower than on its sheet. */
export function endsOf({ from }: Known): readonly [Round, Round] {
  return from === 'measured' ? [Math.floor, Math.ceil] : [Math.round, Math.round];
}

/** What is known of a reading: a measured span rounded outwards, as on its sheet; off the scale, only its end. */
export function knownText(reading: QuantityId | 'combined-chlorine', known: Known, units: UnitSystem): string {
  const { value, low, high, open } = known;
  const [down, up] = endsOf(known);
  const show = (one: number, round: Round = Math.round) => givenNumber(reading, one, units, round);
  const unit = readingUnit(reading, units);
  if (open === null) {
    const [shown, least, most] = [show(value), show(low, down), show(high, up)];
    return `${least === most ? shown : `${shown} (${least} to ${most})`}${unit}`;
  }
  const [end, word] = open === 'above' ? [low, 'more'] : [high, 'less'];
  return end === value ? `${show(end)}${unit} or ${word}` : `${show(value)} (${show(end)} or ${word})${unit}`;
}

export function measureText(measure: Measure): string {
  if (measure.length === 0) return 'less than can be measured';
  // Behind pounds an ounce can only be one of weight; alone it is told apart from a fluid one.
  const unitText = (unit: string) => (unit === 'oz' && measure.length === 1 ? 'oz by weight' : unit);
  return measure.map(({ value, unit }) => `${numberText(value)} ${unitText(unit)}`).join(' ');
}

export function amountText(amount: Amount, units: UnitSystem): string {
  return measureText(units === 'us' ? amount.us : amount.metric);
}

/** The exact amount, for the arithmetic. */
export function exactAmount(exact: number, form: 'liquid' | 'solid', units: UnitSystem): string {
  const [quantity, small, large, per, us] =
    form === 'liquid' ? (['volume', 'mL', 'L', 1000, 'fl oz'] as const) : (['mass', 'g', 'kg', 1000, 'oz'] as const);
  if (units === 'us') return `${fixed(convert(quantity, exact, small as never, us as never), 1)} ${us}`;
  return exact < per ? `${fixed(exact, 0)} ${small}` : `${fixed(exact / per, 2)} ${large}`;
}

export function volumeText(litres: number, units: UnitSystem): string {
  if (units === 'us') return `${fixed(convert('volume', litres, 'L', 'gal'), 0)} US gal`;
  return litres < 10_000 ? `${fixed(litres, 0)} L` : `${fixed(litres / 1000, 1)} m³`;
}

/** 'half an hour', '2 hours', '3 days'. */
export function durationText(hours: number): string {
  if (hours < 1) return hours <= 0.5 ? 'half an hour' : 'an hour';
  if (hours < 1.25) return 'an hour';
  if (hours < 36) {
    const hoursShown = hours < 10 ? Math.round(hours * 2) / 2 : Math.round(hours);
    return countText(hoursShown, 'hour', 'hours');
  }
  const days = Math.round(hours / 24);
  if (days === 7) return 'a week';
  return days === 14 ? 'two weeks' : `${days} days`;
}
