/** 'Why this much': the arithmetic of a step in words. */
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { TargetId } from '../../core/water/targets.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import type { Known } from '../../core/water/plan/spanned.ts';
import type { ArithmeticLine } from '../../core/water/plan/step.ts';
import { capitalised } from '../grammar.ts';
import { targetName } from './names.ts';
import { quantityInPlan } from '../quantities.ts';
import { outputText } from '../units.ts';
import { exactAmount, fixed, givenNumber, knownText, readingUnit, volumeText } from './numbers.ts';

const FROM: Record<Known['from'], string> = { measured: 'measured', derived: 'by calculation', assumed: 'assumed' };

export function whyText(line: ArithmeticLine, units: UnitSystem): string {
  switch (line.line) {
    case 'reading':
      return readingLine(line.reading, line.known, line.used, units);
    case 'aim':
      return `Aim: ${targetName(line.target)} ${aimNumber(line.target, line.value, units)}.`;
    case 'by-equilibrium':
      return `The equilibrium of the water asks for ${fixed(line.mmolPerLitre, 3)} mmol per litre.`;
    case 'by-mass':
      return `That is ${signed(line.mgPerLitre)} mg per litre, or ${fixed(line.mmolPerLitre, 3)} mmol.`;
    case 'as-the-ph-bears':
      return `This round stops at ${fixed(line.reached, 1)} mg/L: more would lift the pH beyond ${fixed(line.ph, 1)}.`;
    case 'as-the-index-bears':
      return `It stops where the saturation index would rise beyond ${fixed(line.index, 1)}: what lowers the pH comes first.`;
    case 'for-the-acid-to-come':
      return `And ${fixed(line.mmolPerLitre, 3)} mmol per litre for what the acid in the next step takes.`;
    case 'from-the-soda-ash-to-come':
      return `Less ${fixed(line.mmolPerLitre, 3)} mmol per litre for what the soda ash in the next step brings.`;
    case 'volume':
      return `Times ${volumeText(line.litres, units)}${line.lowEnd ? ', the least the pool may hold' : ''}.`;
    case 'strength':
      return strengthLine(line);
    case 'amount':
      return `So ${exactAmount(line.exact, line.form, units)}.`;
    case 'share':
      return `From ${fixed(line.from, 0)} to ${fixed(line.to, 0)} mg/L with fill water at ${fixed(line.fill, 0)}: (${fixed(line.from, 0)} − ${fixed(line.to, 0)}) / (${fixed(line.from, 0)} − ${fixed(line.fill, 0)}) = ${fixed(100 * line.share, 0)} % of the water.`;
    case 'goes':
      return `In ${line.times} goes that mix in between, each takes part of the fresh water out again: ${fixed(100 * line.sharePerTime, 0)} % each leaves ${fixed(100 * (1 - line.share), 0)} % of the old water.`;
    case 'hours':
      return `That is ${exactAmount(line.grams, 'solid', units)} of chlorine; at ${outputText(line.gramsPerHour, units)} it takes ${fixed(line.hours, 1)} h.`;
  }
}

function strengthLine({
  percent,
  basis,
  left,
  isLearnt,
  mmolPerUnit,
  form,
}: Extract<ArithmeticLine, { line: 'strength' }>): string {
  const counted = basis === 'by-weight' ? ' by weight' : basis === 'by-volume' ? ' by volume' : '';
  const by = isLearnt ? 'by the logbook' : 'at its age';
  const rest = left === undefined ? '' : ` and, ${by}, ${fixed(100 * left, 0)} % of its strength`;
  return `The product at ${percent} %${counted}${rest} holds ${fixed(mmolPerUnit, 2)} mmol in each ${form === 'liquid' ? 'mL' : 'g'}.`;
}

function readingLine(reading: QuantityId, known: Known, used: number, units: UnitSystem): string {
  const span = knownText(reading, known, units);
  const end =
    known.open === null && !span.includes('(')
      ? ''
      : ` Worked out for ${givenNumber(reading, used, units)}${readingUnit(reading, units)}, so that no likely water is overdone.`;
  return `${capitalised(quantityInPlan(reading))} ${FROM[known.from]}: ${span}.${end}`;
}

function aimNumber(target: TargetId, value: number, units: UnitSystem): string {
  if (target === 'saturation-index') return fixed(value, 1);
  return `${givenNumber(target, value, units)}${readingUnit(target, units)}`;
}

function signed(value: number): string {
  return Math.abs(value) < 10 ? fixed(value, 1) : fixed(value, 0);
}
