/** The sentences that carry numbers: steps, assumptions, upkeep, retests, the end. */
import type { ChlorineUse } from '../../../pool/chlorinator.ts';
import { product } from '../../products.ts';
import type { UnitSystem } from '../../units.ts';
import { measureHours, measureLiquid, measureSolid, measureWater } from '../../measure.ts';
import type { PredictedWater, Span } from '../spanned.ts';
import type { Step } from '../step.ts';
import type { Assumption, EndCheck, Hold, Retest, Upkeep } from '../types.ts';
import { readingName, targetName } from './names.ts';
import {
  amountText,
  durationText,
  fixed,
  measureText,
  readingSpan,
  spanText,
  thousands,
  activeNumber,
} from './numbers.ts';
import { apartText, holdText, outsideText, remedyText, retestText } from './sentences.ts';
import { capital } from './why.ts';

/** What to do, with how much of what. */
export function doText(step: Step, units: UnitSystem): string {
  const { amount, choice, replace } = step;
  if (replace) return replaceText(replace, units);
  if (step.hours !== undefined) return `Run it at full output for ${durationText(measureHours(step.hours))}.`;
  if (step.toPh !== undefined && !amount) return `Aerate until the pH is ${fixed(step.toPh, 1)}.`;
  if (!amount || !choice) return '';
  const strength = product(choice.product).strengths.length > 1 ? ` (${choice.strength} %)` : '';
  const parts =
    step.parts > 1
      ? ` in ${step.parts} equal parts of ${measureText(units === 'us' ? amount.part.us : amount.part.metric)}, at least ${durationText(step.hoursBetweenParts)} apart, with a test before each further part`
      : '';
  const get = choice.onShelf ? '' : ' Not on your shelf: get some.';
  return `Add ${amountText(amount, units)} of ${product(choice.product).name}${strength}${parts}.${get}`;
}

/** What it would have been if the readings' other ends were true; empty where there is hardly a difference. */
export function rangeText({ amount }: Step, units: UnitSystem): string {
  if (!amount || amount.upTo < amount.exact * 1.1) return '';
  const measure = amount.form === 'liquid' ? measureLiquid : measureSolid;
  return `The readings leave room for up to ${measureText(measure(amount.upTo, units))}: test before adding more.`;
}

function replaceText(replace: NonNullable<Step['replace']>, units: UnitSystem): string {
  const { value, unit } = measureWater(replace.litresPerTime, units);
  const level =
    replace.centimetresPerTime === null
      ? ''
      : units === 'us'
        ? `, about ${fixed(replace.centimetresPerTime / 2.54, 0)} in of level`
        : `, about ${fixed(replace.centimetresPerTime, 0)} cm of level`;
  const share = `${fixed(100 * replace.sharePerTime, 0)} % of the water (${thousands(value)} ${unit}${level})`;
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
  return `${capital(targetName(target))}: ${holdText(reason)} ${remedyText(remedy)}`;
}

export function retestLine({ reading, afterHours, reason, remedy }: Retest): string {
  const when = afterHours === 0 ? 'now' : `after ${durationText(afterHours)}`;
  const how = remedy ? ` ${remedyText(remedy)}` : '';
  return `${capital(readingName(reading))}: ${when}, ${retestText(reason)}.${how}`;
}

export function endLine({ target, span, inside, why }: EndCheck, units: UnitSystem): string {
  if (why === 'not-measured')
    return `${capital(targetName(target))}: not known, because not everything for it was measured.`;
  const value =
    target === 'saturation-index' ? spanText(span, (one) => fixed(one, 1)) : readingSpan(target, span, units);
  const place = inside ? 'in its target' : `outside its target: ${why ? outsideText(why) : ''}`;
  return `${capital(targetName(target))} ${value}, ${place}.`;
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

function assumptionText({ code, span, readings, product: id }: Assumption, units: UnitSystem): string {
  switch (code) {
    case 'test-error':
      return `How ${(readings ?? []).map(readingName).join(', ')} ${readings?.length === 1 ? 'was' : 'were'} measured was not said: taken as surer than a strip by eye, and less sure than a drop test.`;
    case 'calcium-from-total':
      return `Calcium taken as ${fixed(100 * span.value, 0)} % of the total hardness (${fixed(100 * span.low, 0)} to ${fixed(100 * span.high, 0)} %).`;
    case 'fill-water':
      return 'The fill water is not fully known: usual tap water is taken for what is blank.';
    case 'strength':
      return `Strength of ${id ? product(id).name : 'the product'} not given: ${span.value} % is taken. Check the label.`;
    case 'chlorine-use':
      return `Chlorine used in a day not measured: ${fixed(span.value, 1)} mg/L is taken (${fixed(span.low, 1)} to ${fixed(span.high, 1)}).`;
    case 'boron':
      return 'No borate is taken to be in the water.';
    default:
      return `${capital(readingName(code))} not measured: ${readingSpan(code, span, units)} is taken.`;
  }
}

function stabilizerText({ stabilizerPerWeek, insteadOfStabilised }: Extract<Upkeep, { kind: 'product' }>): string {
  if (insteadOfStabilised) return ' This instead of trichlor or dichlor, because there is stabilizer enough.';
  if (stabilizerPerWeek === 0) return '';
  return ` A week of that adds about ${fixed(stabilizerPerWeek, 0)} mg/L of stabilizer: watch it.`;
}

const USE_BASIS: Record<ChlorineUse['basis'], string> = {
  'measured-overnight': 'measured',
  'measured-day': 'measured',
  learnt: 'learnt from the logbook',
  assumed: 'assumed',
};

export function upkeepLine(upkeep: Upkeep, units: UnitSystem): string {
  const use = `The pool uses about ${spanText(upkeep.use, (value) => fixed(value, 1))} mg/L of chlorine a day (${USE_BASIS[upkeep.use.basis]})`;
  switch (upkeep.kind) {
    case 'chlorinator': {
      const hours = `run the chlorinator ${fixed(measureHours(upkeep.hours), 2).replace(/\.?0+$/, '')} hours a day (${fixed(measureHours(upkeep.lowHours), 2).replace(/\.?0+$/, '')} to ${fixed(measureHours(upkeep.highHours), 2).replace(/\.?0+$/, '')}) at its setting`;
      if (upkeep.beyondDay) return `${use}: more than the chlorinator can make in a day at its setting.`;
      const claim = upkeep.aboveCeiling ? ' Its stated output is more than its current allows: expect less.' : '';
      return `${use}: ${hours}, then let the next tests set the hours.${claim}`;
    }
    case 'product':
      return `${use}: about ${amountText(upkeep.amount, units)} of ${product(upkeep.choice.product).name} a day.${stabilizerText(upkeep)}`;
    case 'use-only':
      return `${use}. With the output of the chlorinator the hours could be worked out.`;
  }
}
