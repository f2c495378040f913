/** The sentences that carry numbers: steps, assumptions, upkeep, retests, the end. */
import type { ChlorineUse } from '../../core/pool/chlorinator.ts';
import { product } from '../../core/water/products.ts';
import { convert, type UnitSystem } from '../../core/water/units.ts';
import { measureHours, measureLiquid, measureSolid, measureWater } from '../../core/water/measure.ts';
import type { PredictedWater, Span } from '../../core/water/plan/spanned.ts';
import type { Amount, Step } from '../../core/water/plan/step.ts';
import type { Assumption, EndCheck, Hold, Pause, Retest, Upkeep } from '../../core/water/plan/types.ts';
import { productName, targetName } from './names.ts';
import { monthName } from '../climate.ts';
import { quantityInPlan } from '../quantities.ts';
import { amountText, durationText, fixed, measureText, readingSpan, spanText, activeNumber } from './numbers.ts';
import { apartText, holdText, outsideText, remedyText, retestText } from './sentences.ts';
import { capitalised } from '../grammar.ts';
import { formatInterval, formatMeasured, numberText } from '../numbers.ts';

/** What to do, with how much of what. */
export function doText(step: Step, units: UnitSystem): string {
  const { amount, choice, replace } = step;
  if (replace) return replaceText(replace, units);
  if (step.offer) return offerText(step.offer, units);
  if (step.hours !== undefined) return `Run it at full output for ${durationText(measureHours(step.hours))}.`;
  if (step.toPh !== undefined && !amount) return `Aerate until the pH is ${fixed(step.toPh, 1)}.`;
  if (!amount || !choice) return '';
  const strength = product(choice.product).strengths.length > 1 ? ` (${choice.strength} %)` : '';
  const parts =
    step.parts > 1
      ? ` in ${step.parts} equal parts of ${measureText(units === 'us' ? amount.part.us : amount.part.metric)}, at least ${durationText(step.hoursBetweenParts)} apart, with a test before each further part`
      : '';
  const get = choice.onShelf ? '' : ' Not on your shelf: get some.';
  return `Add ${amountText(amount, units)} of ${productName(choice.product)}${strength}${parts}.${get}${bucketText(amount, units)}`;
}

/** How much to a bucket, and how many of them. */
function bucketText({ buckets }: Amount, units: UnitSystem): string {
  if (!buckets) return '';
  const each = measureText(measureSolid(buckets.gramsEach, units));
  const bucket = units === 'us' ? 'a bucket with 2.6 gal of water' : 'a bucket with 10 L of water';
  if (buckets.count === 1) return ` Stir it into ${bucket}.`;
  return ` Stir no more than ${each} into ${bucket}, pour that out, and go on: ${buckets.count} buckets, one after the other.`;
}

/** What it might take in all; empty where there is hardly a difference. One figure: it is no amount to weigh out. */
export function rangeText({ amount }: Step, units: UnitSystem): string {
  if (!amount || amount.upTo < amount.exact * 1.1) return '';
  const measure = amount.form === 'liquid' ? measureLiquid : measureSolid;
  const unit =
    units === 'metric'
      ? 1
      : amount.form === 'liquid'
        ? convert('volume', 1, 'fl oz', 'mL')
        : convert('mass', 1, 'oz', 'g');
  const all = measureText(measure(Number((amount.upTo / unit).toPrecision(1)) * unit, units));
  return amount.rangeFrom === 'reaction'
    ? `Where the reaction stops early it takes more, in all perhaps about ${all}: only a new test tells.`
    : `Only a new test tells whether it takes more; in all it might be about ${all}.`;
}

function offerText({ share, litres, toCalcium }: NonNullable<Step['offer']>, units: UnitSystem): string {
  const { value, unit } = measureWater(litres, units);
  return `If you can: ${fixed(100 * share, 0)} % fresh water (${numberText(value)} ${unit} in all) would bring the calcium to ${fixed(toCalcium, 0)} mg/L.`;
}

function replaceText(replace: NonNullable<Step['replace']>, units: UnitSystem): string {
  const { value, unit } = measureWater(replace.litresPerTime, units);
  const level =
    replace.centimetresPerTime === null
      ? ''
      : units === 'us'
        ? `, about ${fixed(replace.centimetresPerTime / 2.54, 0)} in of level`
        : `, about ${fixed(replace.centimetresPerTime, 0)} cm of level`;
  const share = `${fixed(100 * replace.sharePerTime, 0)} % of the water (${numberText(value)} ${unit}${level})`;
  return replace.times === 1
    ? `Let out ${share} and fill up again.`
    : `${replace.times} times: let out ${share}, fill up and let it mix.`;
}

export function waitText({ waitFirst }: Step): string {
  return waitFirst ? `First wait ${durationText(waitFirst.hours)}, ${apartText(waitFirst.reason)}.` : '';
}

export function circulateText({ circulateMinutes, kind }: Step): string {
  if (circulateMinutes === 0 || kind === 'clean' || kind === 'aerate' || kind === 'run-chlorinator') return '';
  return `Then keep the pump running for ${durationText(circulateMinutes / 60)} or more.`;
}

/** The whole predicted water on one line. */
export function waterText(water: PredictedWater, units: UnitSystem): string {
  const { spans } = water;
  const show = (reading: Parameters<typeof readingSpan>[0], span: Span) => readingSpan(reading, span, units);
  return [
    `pH ${show('ph', spans.ph)}`,
    `alkalinity ${show('total-alkalinity', spans.totalAlkalinity)}`,
    `calcium ${show('calcium-hardness', spans.calciumHardness)}`,
    `free chlorine ${show('free-chlorine', spans.freeChlorine)}`,
    `stabilizer ${show('cyanuric-acid', spans.cyanuricAcid)}`,
    `salt ${show('salt', spans.salt)}`,
    `saturation index ${spanText(water.saturationIndex, (value) => fixed(value, 1))}`,
    `active chlorine ${spanText(water.activeChlorine, activeNumber)} mg/L`,
  ].join('; ');
}

export function holdLine({ target, reason, remedy }: Hold): string {
  return `${capitalised(targetName(target))}: ${holdText(reason)} ${remedyText(remedy)}`;
}

export function retestLine({ reading, afterHours, reason, remedy }: Retest): string {
  const when = afterHours === 0 ? 'now' : `after ${durationText(afterHours)}`;
  const how = remedy ? ` ${remedyText(remedy)}` : '';
  return `${capitalised(quantityInPlan(reading))}: ${when}, ${retestText(reason)}.${how}`;
}

export function endLine({ target, span, inside, why }: EndCheck, units: UnitSystem): string {
  if (why === 'not-measured')
    return `${capitalised(targetName(target))}: not known, because not everything for it was measured.`;
  const value =
    target === 'saturation-index' ? spanText(span, (one) => fixed(one, 1)) : readingSpan(target, span, units);
  const place = inside ? 'in its target' : `outside its target: ${why ? outsideText(why) : ''}`;
  return `${capitalised(targetName(target))} ${value}, ${place}.`;
}

export function assumptionLine(assumption: Assumption, units: UnitSystem): string {
  const said = assumptionText(assumption, units);
  const { effect } = assumption;
  if (!effect) return said;
  const [index, active] = [effect.saturationIndex, effect.activeChlorine];
  const parts: string[] = [];
  if (fixed(index[0], 1) !== fixed(index[1], 1)) {
    parts.push(`the saturation index now from ${fixed(index[0], 1)} to ${fixed(index[1], 1)}`);
  }
  if (fixed(active[0], 3) !== fixed(active[1], 3)) {
    parts.push(`the active chlorine now from ${fixed(active[0], 3)} to ${fixed(active[1], 3)} mg/L`);
  }
  return parts.length === 0 ? said : `${said} From end to end that moves ${parts.join(' and ')}.`;
}

function assumptionText({ code, span, readings, product: id, month }: Assumption, units: UnitSystem): string {
  switch (code) {
    case 'test-error':
      return `How ${(readings ?? []).map(quantityInPlan).join(', ')} ${readings?.length === 1 ? 'was' : 'were'} measured was not said: taken as surer than a strip by eye, and less sure than a drop test.`;
    case 'calcium-from-total':
      return `Calcium taken as ${fixed(100 * span.value, 0)} % of the total hardness (${fixed(100 * span.low, 0)} to ${fixed(100 * span.high, 0)} %).`;
    case 'fill-water':
      return 'The fill water is not fully known: usual tap water is taken for what is blank.';
    case 'strength':
      return `Strength of ${id ? productName(id) : 'the product'} not given: ${span.value} % is taken. Check the label.`;
    case 'chlorine-use':
      return `Chlorine used in a day not measured: ${fixed(span.value, 1)} mg/L is taken (${fixed(span.low, 1)} to ${fixed(span.high, 1)}).`;
    case 'boron':
      return 'No borate is taken to be in the water.';
    default:
      return `${capitalised(quantityInPlan(code))} not measured: ${readingSpan(code, span, units)} is taken${month ? `, by the mean air temperature of ${monthName(month)} at your place` : ''}.`;
  }
}

function insteadText({ stabilizerPerWeek, instead }: Extract<Upkeep, { kind: 'product' }>): string {
  switch (instead) {
    case 'of-stabilised':
      return ' This instead of trichlor or dichlor, because there is stabilizer enough.';
    case 'of-cold-cell':
      return ' By hand, because many chlorinators switch off in water below 15 °C (59 °F).';
    default:
      if (stabilizerPerWeek === 0) return '';
      return ` A week of that adds about ${fixed(stabilizerPerWeek, 0)} mg/L of stabilizer: watch it.`;
  }
}

function pauseText(pause: Pause | null): string {
  switch (pause?.reason) {
    case 'above-target': {
      const days = pause.days === null ? '' : `, in about ${durationText(24 * Math.max(0.5, pause.days))}`;
      return `Add no chlorine and keep the chlorinator off until the free chlorine is back in its target${days}. From then on: `;
    }
    case 'salt-low':
      return 'Leave the chlorinator off until there is salt enough and it has dissolved; chlorine by hand until then. From then on: ';
    default:
      return '';
  }
}

const USE_BASIS: Record<ChlorineUse['basis'], string> = {
  'measured-overnight': 'measured',
  'measured-day': 'measured',
  learnt: 'learnt from the logbook',
  assumed: 'assumed',
};

export function upkeepLine(upkeep: Upkeep, units: UnitSystem): string {
  const pause = pauseText(upkeep.pause);
  const text = upkeepText(upkeep, units);
  return pause === '' ? text : pause + text.charAt(0).toLowerCase() + text.slice(1);
}

function upkeepText(upkeep: Upkeep, units: UnitSystem): string {
  const { value, low, high } = upkeep.use;
  const often = `${formatMeasured(value, 'mg/L')} (${formatInterval(low, high, 'mg/L')})`;
  const use = `The pool uses about ${often} mg/L of chlorine a day (${USE_BASIS[upkeep.use.basis]})`;
  switch (upkeep.kind) {
    case 'chlorinator':
      return `${use}: ${chlorinatorText(upkeep)}`;
    case 'product':
      return `${use}: ${dailyText(upkeep, units)}${insteadText(upkeep)}`;
    case 'use-only':
      return `${use}. With the output of the chlorinator its setting could be worked out.`;
  }
}

function dailyText({ amount, choice }: Extract<Upkeep, { kind: 'product' }>, units: UnitSystem): string {
  const name = productName(choice.product);
  if (amount.metric.length === 0 || amount.us.length === 0)
    return `a day’s ${name} is too little to measure out; add some when a test asks for it.`;
  return `about ${amountText(amount, units)} of ${name} a day.`;
}

/** As units are set: per cent and hours of the timer; and what that is at the setting there is. */
function chlorinatorText({ timer, beyondDay, aboveCeiling, ...run }: Extract<Upkeep, { kind: 'chlorinator' }>): string {
  const claim = aboveCeiling ? ' Its stated output is more than its current allows: expect less.' : '';
  const hours = (value: number) => fixed(measureHours(value), 2).replace(/\.?0+$/, '');
  const isUsual = timer.isUsual ? ', a usual time' : '';
  if (timer.percent > 100) {
    const longer = beyondDay
      ? 'not even a whole day at its setting is enough'
      : `run it ${hours(run.hours)} hours a day (${hours(run.lowHours)} to ${hours(run.highHours)}) at its setting`;
    return `more than the chlorinator makes in ${hours(timer.hours)} hours a day${isUsual}; ${longer}, or add the rest by hand.${claim}`;
  }
  return `set the chlorinator to ${timer.percent} % for the ${hours(timer.hours)} hours a day that the pump runs${isUsual}, or run it ${hours(run.hours)} hours a day (${hours(run.lowHours)} to ${hours(run.highHours)}) at the setting it has; then let the next tests correct it.${claim}`;
}
