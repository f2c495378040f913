/** A whole plan as plain text: for printing, for sending on, and for reading it line by line. */
import type { CautionCode } from '../../core/water/cautions.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import type { Step } from '../../core/water/plan/step.ts';
import type { Plan } from '../../core/water/plan/types.ts';
import { capitalised } from '../grammar.ts';
import { caution } from './cautions.ts';
import { howText, stepTitle, targetName } from './names.ts';
import { fixed, givenNumber, knownText, readingUnit, spanText, activeNumber } from './numbers.ts';
import {
  assumptionLine,
  circulateText,
  doText,
  endLine,
  holdLine,
  rangeText,
  retestLine,
  upkeepLine,
  waitText,
  waterText,
} from './parts.ts';
import {
  IF_BOTTOM_VISIBLE,
  findingText,
  notMeasuredText,
  nothingText,
  noteText,
  swimText,
  verdictText,
} from './sentences.ts';
import { whyText } from './why.ts';

export function planToText(plan: Plan, units: UnitSystem): string {
  const sections: [string, string[]][] = [
    ['Swimming', swimming(plan)],
    ['The water now', waterNow(plan, units)],
    ['Assumed', plan.assumptions.map((assumption) => assumptionLine(assumption, units))],
    ['Not dosed for', plan.holds.map(holdLine)],
    ['Steps', plan.nothingNeeded ? [nothingText(plan.nothingNeeded)] : steps(plan, units)],
    ['Day by day', plan.upkeep ? [upkeepLine(plan.upkeep, units)] : []],
    ['Where that leaves the water', plan.steps.length > 0 ? plan.endChecks.map((check) => endLine(check, units)) : []],
    ['Test again', plan.retests.map(retestLine)],
    ['Always', cautions(plan.generalCautions)],
  ];
  return sections
    .filter(([, lines]) => lines.length > 0)
    .map(([title, lines]) => `${title}\n${lines.map((line) => `  ${line}`).join('\n')}\n`)
    .join('\n');
}

function swimming({ verdict }: Plan): string[] {
  return [
    swimText(verdict.swim),
    ...verdict.reasons.map(verdictText),
    ...(verdict.onlyIfBottomVisible ? [IF_BOTTOM_VISIBLE] : []),
    notMeasuredText(verdict.notMeasured),
  ];
}

function waterNow({ findings, now }: Plan, units: UnitSystem): string[] {
  const lines = findings.map((finding) => {
    const { target, known, against, judgement } = finding;
    const { low, high } = against;
    if (target === 'saturation-index') {
      const value = known ? spanText(known, (one) => fixed(one, 1)) : 'unknown';
      const word = judgement === 'unknown' ? 'rests on what was not measured' : findingText(finding);
      return `Saturation index: ${value}, target ${fixed(low, 1)} to ${fixed(high, 1)}: ${word}`;
    }
    const span = `target ${givenNumber(target, low, units)} to ${givenNumber(target, high, units)}${readingUnit(target, units)}`;
    const value = known && known.from !== 'assumed' ? knownText(target, known, units) : 'not measured';
    return `${capitalised(targetName(target))}: ${value}, ${span}: ${findingText(finding)}`;
  });
  const chlorineKnown = findings.some(({ target, known }) => target === 'free-chlorine' && known?.from === 'measured');
  const active = chlorineKnown ? `${spanText(now.activeChlorine, activeNumber)} mg/L` : 'not known';
  return [...lines, `Active chlorine (hypochlorous acid): ${active}`];
}

function steps(plan: Plan, units: UnitSystem): string[] {
  return plan.steps.flatMap((step, i) => [
    `${i + 1}. ${stepTitle(step.kind)}`,
    ...stepLines(step, units).map((line) => `   ${line}`),
  ]);
}

function stepLines(step: Step, units: UnitSystem): string[] {
  return [
    waitText(step),
    doText(step, units),
    rangeText(step, units),
    step.how ? howText(step.how) : '',
    ...step.notes.map(noteText),
    circulateText(step),
    ...cautions(step.cautions).map((text) => `! ${text}`),
    step.kind === 'clean' ? '' : `After it: ${waterText(step.after, units)}.`,
    ...step.why.map((line) => `why: ${whyText(line, units)}`),
  ].filter((line) => line !== '');
}

function cautions(codes: readonly CautionCode[]): string[] {
  return codes.map((code) => caution(code).text);
}
