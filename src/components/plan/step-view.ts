/** One step of the plan, in the order in which a person needs to know it. */
import type { CautionCode } from '../../core/water/cautions.ts';
import { caution } from '../../words/plan/cautions.ts';
import type { SpannedReading } from '../../core/water/plan/spanned.ts';
import type { Step, StepKind } from '../../core/water/plan/step.ts';
import { howText, stepTitle } from '../../words/plan/names.ts';
import { readingSpan } from '../../words/plan/numbers.ts';
import { circulateText, doText, rangeText, waitText, waterText } from '../../words/plan/parts.ts';
import { noteText } from '../../words/plan/sentences.ts';
import { whyText } from '../../words/plan/why.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h } from '../dom.ts';
import { fold, list } from './sections.ts';
import { stepProgress } from './step-progress.ts';

type Shown = readonly [spanned: SpannedReading, reading: Parameters<typeof readingSpan>[0], name: string];

const PH: Shown = ['ph', 'ph', 'pH'];
const ALKALINITY: Shown = ['totalAlkalinity', 'total-alkalinity', 'alkalinity'];
const CALCIUM: Shown = ['calciumHardness', 'calcium-hardness', 'calcium'];
const CHLORINE: Shown = ['freeChlorine', 'free-chlorine', 'free chlorine'];
const STABILIZER: Shown = ['cyanuricAcid', 'cyanuric-acid', 'stabilizer'];
const SALT: Shown = ['salt', 'salt', 'salt'];

/** What a step is about, and so what is said of the water after it. */
const MOVED: Record<StepKind, readonly Shown[]> = {
  clean: [],
  'replace-water': [CALCIUM, STABILIZER, SALT],
  'raise-alkalinity': [ALKALINITY, PH],
  'lower-ph': [PH, ALKALINITY],
  'raise-ph': [PH, ALKALINITY],
  aerate: [PH],
  'raise-chlorine': [CHLORINE],
  'clear-algae': [CHLORINE],
  'oxidise-combined': [CHLORINE],
  'lower-chlorine': [CHLORINE],
  'wait-for-chlorine': [CHLORINE],
  'run-chlorinator': [CHLORINE],
  'raise-salt': [SALT],
  'raise-stabilizer': [STABILIZER],
  'raise-hardness': [CALCIUM],
  'look-for-scale': [],
};

/**
 * @param saidOnce cautions that stand above all steps, and so not at each
 */
export function stepView(step: Step, units: UnitSystem, saidOnce: readonly CautionCode[]): HTMLElement {
  const cautions = step.cautions.filter((code) => !saidOnce.includes(code)).map((code) => caution(code).text);
  const how = [step.how ? howText(step.how) : '', circulateText(step)].filter(Boolean).join(' ');
  return h(
    'li',
    { class: 'step', 'data-step': step.id },
    h('h3', {}, stepTitle(step.kind)),
    paragraph(waitText(step)),
    paragraph(doText(step, units), 'do'),
    paragraph(how),
    list(step.notes.map(noteText), 'step-notes'),
    paragraph(rangeText(step, units), 'hint'),
    list(cautions, 'cautions'),
    paragraph(afterText(step, units), 'after'),
    stepProgress(step, stepTitle(step.kind), units),
    step.why.length > 0
      ? fold('Why this much', list(step.why.map((line) => whyText(line, units))), wholeWater(step, units))
      : null,
  );
}

function afterText({ kind, after }: Step, units: UnitSystem): string {
  const moved = MOVED[kind].map(
    ([spanned, reading, name]) => `${name} ${readingSpan(reading, after.spans[spanned], units)}`,
  );
  return moved.length > 0 ? `After it: ${moved.join(', ')}.` : '';
}

function wholeWater({ after }: Step, units: UnitSystem): HTMLElement {
  return h('p', {}, `The whole water after it: ${waterText(after, units)}.`);
}

function paragraph(text: string, name = ''): HTMLElement | null {
  return text === '' ? null : h('p', { class: name || null }, text);
}
