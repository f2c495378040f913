/** The plans of the thirty waters in three lines each: swimming, what to do in order, what waits and what follows. */
import { planFrom } from '../../src/core/water/plan/make-plan.ts';
import type { Step } from '../../src/core/water/plan/step.ts';
import type { Plan } from '../../src/core/water/plan/types.ts';
import { productName, stepTitle, targetName } from '../../src/words/plan/names.ts';
import { amountText, durationText, fixed, spanText } from '../../src/words/plan/numbers.ts';
import { swimText, verdictText } from '../../src/words/plan/sentences.ts';
import { WATERS } from './waters.ts';

const HEAD = `# Thirty waters and their plans

Three lines each: about swimming; what to do, in order; what is not dosed, what follows day by day, and what the water
then is. Where nothing else is said, the pool is the round one of 26.1 m³ with a liner and a salt chlorinator, on a
hillside. \`npm run waters\` writes this page, and a test holds it to the plan: a change here is a change of advice, so
read it as somebody who treats pools would.
`;

export function watersText(): string {
  const parts = WATERS.map(({ name, input }, i) => {
    const outcome = planFrom(input);
    const lines = outcome.ok
      ? threeLines(outcome.plan)
      : [`No plan: ${outcome.issues.map(({ code }) => code).join(', ')}`];
    return `## ${i + 1}. ${name}\n\n${lines.map((line) => `- ${line}`).join('\n')}\n`;
  });
  return [HEAD, ...parts].join('\n');
}

function threeLines(plan: Plan): string[] {
  return [swimming(plan), plan.steps.map(stepLine).join(' → ') || 'Nothing is added.', rest(plan)];
}

function swimming({ verdict }: Plan): string {
  return [swimText(verdict.swim), ...verdict.reasons.map(verdictText)].join(' ');
}

function stepLine({ kind, amount, choice, parts, hours, replace, toPh, waitFirst }: Step): string {
  const dose = amount && choice ? `: ${amountText(amount, 'metric')} of ${productName(choice.product)}` : '';
  const split = parts > 1 ? ` in ${parts} parts` : '';
  const run = hours === undefined ? '' : `: ${durationText(hours)} at full output`;
  const share = replace ? `: ${replace.times} × ${fixed(100 * replace.sharePerTime, 0)} %` : '';
  const air = toPh === undefined ? '' : ` to ${fixed(toPh, 1)}`;
  const wait = waitFirst && waitFirst.hours >= 12 ? ` (first wait ${durationText(waitFirst.hours)})` : '';
  return `**${stepTitle(kind)}**${air}${dose}${split}${run}${share}${wait}`;
}

function rest({ holds, upkeep, end, now, steps }: Plan): string {
  const held = holds.map(({ target, reason, remedy }) => `${targetName(target)} (${reason}: ${remedy})`);
  const water = steps.length > 0 ? end : now;
  const pause = upkeep?.pause ? `, after a pause (${upkeep.pause.reason})` : '';
  const daily =
    upkeep?.kind === 'chlorinator'
      ? `cell ${upkeep.timer.percent} % for ${upkeep.timer.hours} h${pause}`
      : upkeep?.kind === 'product'
        ? `${amountText(upkeep.amount, 'metric')} of ${productName(upkeep.choice.product)} a day${pause}`
        : 'nothing day by day';
  return [
    held.length > 0 ? `Held: ${held.join(', ')}.` : 'Nothing held.',
    `Then ${daily}.`,
    `Ends at pH ${spanText(water.spans.ph, (value) => fixed(value, 1))}, chlorine ${fixed(water.water.freeChlorine, 1)}, alkalinity ${fixed(water.water.totalAlkalinity, 0)}, calcium ${fixed(water.water.calciumHardness, 0)}, stabilizer ${fixed(water.water.cyanuricAcid, 0)}, salt ${fixed(water.water.salt, 0)}, index ${fixed(water.saturationIndex.value, 1)}.`,
  ].join(' ');
}
