/** One step of the plan, in the order in which a person needs to know it. */
import type { CautionCode } from '../../core/water/cautions.ts';
import { caution, LABEL_FIRST } from '../../words/plan/cautions.ts';
import type { SpannedReading } from '../../core/water/plan/spanned.ts';
import type { Step, StepKind, StepNote } from '../../core/water/plan/step.ts';
import { howText, stepTitle } from '../../words/plan/names.ts';
import { amountText, readingSpan } from '../../words/plan/numbers.ts';
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

/** Notes that are part of the doing; the others explain, and fold away. */
const TO_DO: ReadonlySet<StepNote> = new Set([
  'remove-debris',
  'brush-and-vacuum',
  'filter-round-the-clock',
  'chlorine-above-swim-limit-for-now',
  'as-much-as-the-ph-bears',
  'repeat-until-it-holds',
  'hold-until-clear',
  'chlorinator-off-until-salt-dissolved',
  'chlorinator-off-until-chlorine-falls',
  'if-the-test-agrees',
  'no-backwash-while-it-dissolves',
  'never-empty-part-at-a-time',
  'pump-off-below-the-skimmer',
  'optional-without-plaster',
  'retest-before-going-on',
  'points-returns-up-or-fountain',
  'sun-takes-chlorine',
  'thiosulfate-least-by-stoichiometry',
  'look-at-the-cell',
  'look-at-the-heater',
  'dilution-offered',
]);

interface Around {
  /** Cautions that stand once after the steps, and so not at each. */
  readonly saidOnce: readonly CautionCode[];
  /** Not to be marked as done: no real water has it. */
  readonly isPractice: boolean;
}

export function stepView(step: Step, units: UnitSystem, { saidOnce, isPractice }: Around): HTMLElement {
  const cautions = step.cautions
    .filter((code) => !saidOnce.includes(code))
    .map((code) => (code === 'label' ? LABEL_FIRST : caution(code).text));
  const toDo = step.notes.filter((note) => TO_DO.has(note)).map(noteText);
  const how = [step.how ? howText(step.how) : '', circulateText(step), ...toDo].filter(Boolean).join(' ');
  const explained = step.notes.filter((note) => !TO_DO.has(note)).map(noteText);
  return h(
    'li',
    { class: 'step', 'data-step': step.id },
    h('h3', {}, stepTitle(step.kind)),
    paragraph(waitText(step)),
    doing(step, units),
    paragraph(how),
    paragraph(cautions.join(' '), 'mind'),
    h(
      'div',
      { class: 'step-foot' },
      isPractice ? null : stepProgress(step, stepTitle(step.kind), units),
      step.why.length + explained.length > 0
        ? fold(
            step.why.length > 0 ? 'Why this much' : 'More about it',
            paragraph(rangeText(step, units)),
            paragraph(afterText(step, units), 'after'),
            list(explained, 'step-notes'),
            list(step.why.map((line) => whyText(line, units))),
            step.why.length > 0 ? wholeWater(step, units) : null,
          )
        : null,
    ),
  );
}

/** The amount stands out: people look for it again while they measure it out. */
function doing(step: Step, units: UnitSystem): HTMLElement | null {
  const text = doText(step, units);
  if (text === '') return null;
  const amount = step.amount ? amountText(step.amount, units) : '';
  const at = amount === '' ? -1 : text.indexOf(amount);
  if (at < 0) return h('p', { class: 'do' }, text);
  const from = at + amount.length;
  // What follows the first sentence is set in smaller type.
  const stop = text.indexOf('. ', from);
  const end = stop < 0 ? text.length : stop + 1;
  return h(
    'p',
    { class: 'do' },
    text.slice(0, at),
    h('strong', { class: 'amount' }, amount),
    text.slice(from, end),
    h('span', { class: 'rest' }, text.slice(end)),
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
