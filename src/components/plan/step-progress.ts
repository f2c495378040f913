/** Beneath a step of the plan: whether it is done, how long it still waits, and "Mark done" with the real amount. */
import { toStoreError } from '../../browser/store/failure.ts';
import { agentOf, inUnitsOf, productContent, singleAmount, UNKNOWN_CONTENT } from '../../core/log/product-content.ts';
import type { AdditionEntry, AmountUnit, Done, Entry } from '../../core/log/schema.ts';
import { type StepProgress, timesOf } from '../../core/progress/progress.ts';
import { lastDone } from '../../core/progress/rounds.ts';
import { product } from '../../core/water/products.ts';
import { productName } from '../../words/plan/names.ts';
import type { Step } from '../../core/water/plan/step.ts';
import { convert, type UnitSystem } from '../../core/water/units.ts';
import { fieldNumber } from '../../core/typed/number.ts';
import { PLAUSIBLE_AMOUNT } from '../../core/typed/plausible.ts';
import { doneText, KEPT, markText, testFirstText, waitsText } from '../../words/kept-plan.ts';
import { failureText, UNIT_WORDS } from '../../words/log.ts';
import { capitalised } from '../../words/grammar.ts';
import { numberText } from '../../words/numbers.ts';
import { h } from '../dom.ts';
import { typedNumber } from '../typed.ts';
import { keptPlan, type ToWrite } from './kept-plan.ts';
import { keepReadingFirst, readingTime } from './reading-kept.ts';

interface Measured {
  readonly amount: number;
  readonly unit: AmountUnit;
}

/** @param title of the step, for the log of steps without an amount */
export function stepProgress(step: Step, title: string, units: UnitSystem): HTMLElement {
  const root = h('div', { class: 'step-done no-print' });
  const at = keptPlan.standing()?.progress?.steps.find((one) => one.step.id === step.id) ?? null;
  root.append(...content(root, step, title, units, at));
  return root;
}

function content(
  root: HTMLElement,
  step: Step,
  title: string,
  units: UnitSystem,
  at: StepProgress | null,
): (Node | string)[] {
  const done = at?.done ?? [];
  const said = h('p', { class: 'step-said', role: 'status' }, stateText(step, units, at));
  if (at?.state === 'waits' && at.from) said.dataset['from'] = at.from;
  const doneLines = done.map((one) =>
    h('p', { class: 'step-ticked' }, doneText(one.time, amountText(step, one, units), new Date())),
  );
  const parts: (Node | string)[] = [...doneLines, said];
  if (done.length < timesOf(step)) parts.push(marking(root, step, title, units, at, said));
  const last = keptPlan.entry && lastDone(keptPlan.entry);
  if (last && done.some(({ entryId }) => entryId === last.entryId)) parts.push(undoing(said));
  return parts;
}

function stateText(_step: Step, _units: UnitSystem, at: StepProgress | null): string {
  if (at?.state === 'waits' && at.from) return waitsText(at.from, new Date());
  return at?.state === 'for-test' ? testFirstText(at.tests) : '';
}

/** Runs the waits that stand on the page. */
export function tickWaits(root: ParentNode): void {
  for (const said of root.querySelectorAll<HTMLElement>('.step-said[data-from]')) {
    said.textContent = waitsText(said.dataset['from']!, new Date());
  }
}

function marking(
  root: HTMLElement,
  step: Step,
  title: string,
  units: UnitSystem,
  at: StepProgress | null,
  said: HTMLElement,
): HTMLElement {
  const planned = plannedPart(step, units);
  const part = (at?.done.length ?? 0) + 1;
  const isEarly = at !== null && at.state !== 'now';
  const mark = h('button', { type: 'button', class: isEarly ? 'plain' : null }, markText(part, timesOf(step), isEarly));
  const field = planned && amountField(step, planned);
  mark.addEventListener('click', (event) => {
    // The second half of a double click means the button that was there before.
    if (event.detail > 1) return;
    const amount = field ? typedNumber(field.input, PLAUSIBLE_AMOUNT[planned.unit]) : null;
    if (field && !(amount !== null && amount > 0)) {
      field.input.setAttribute('aria-invalid', 'true');
      field.input.focus();
      return;
    }
    void write(root, said, toWrite(step, title, part, planned, amount));
  });
  return h('p', { class: 'step-mark' }, ...(field ? [field.label, ' '] : []), mark);
}

function amountField(step: Step, { amount, unit }: Measured): { label: HTMLElement; input: HTMLInputElement } {
  const input = h('input', { inputmode: 'decimal', autocomplete: 'off', id: `amount-${step.id}` });
  input.value = fieldNumber(amount, 6);
  // It is no field of the plan's form.
  input.addEventListener('input', (event) => event.stopPropagation());
  return { label: h('label', { class: 'measure' }, 'Amount ', input, h('span', {}, UNIT_WORDS[unit])), input };
}

export function undoing(said: HTMLElement): HTMLElement {
  const undo = h('button', { type: 'button', class: 'plain' }, KEPT.undo);
  undo.addEventListener('click', () => {
    undo.disabled = true;
    void keptPlan.takeBack().catch((error: unknown) => failed(said, error));
  });
  return undo;
}

async function write(root: HTMLElement, said: HTMLElement, what: ToWrite): Promise<void> {
  const controls = root.querySelectorAll<HTMLButtonElement | HTMLInputElement>('button, input');
  for (const control of controls) control.disabled = true;
  try {
    await keepReadingFirst();
    await keptPlan.markDone(what, readingTime());
  } catch (error) {
    failed(said, error);
  } finally {
    for (const control of controls) control.disabled = false;
  }
}

function failed(said: HTMLElement, error: unknown): void {
  console.error(error);
  const text = failureText(toStoreError(error).failure);
  const place = said.isConnected ? said : document.querySelector<HTMLElement>('.kept-said');
  if (place) place.textContent = text;
}

/** One part of the step's amount, as it is measured out; null for what has none. */
function plannedPart({ choice, amount, replace }: Step, units: UnitSystem): Measured | null {
  if (replace) {
    const litres = Math.round(replace.litresPerTime);
    return units === 'us'
      ? { amount: Math.round(convert('volume', litres, 'L', 'gal')), unit: 'gal' }
      : { amount: litres, unit: 'L' };
  }
  const measured = amount && singleAmount(units === 'us' ? amount.part.us : amount.part.metric);
  return choice && measured && measured.amount > 0 ? measured : null;
}

function toWrite(step: Step, title: string, part: number, planned: Measured | null, amount: number | null): ToWrite {
  const given = planned && { ...planned, amount: amount ?? planned.amount };
  return {
    step: step.id,
    part,
    planned: planned && inBase(step, planned),
    amount: given && inBase(step, given),
    entry: (common): Entry =>
      given
        ? { ...common, note: '', kind: 'addition', origin: 'planned', ...added(step, given) }
        : { ...common, kind: 'note', note: `From the plan, done: ${title}.` },
  };
}

/** mL, g, or L of water. */
function inBase({ choice, replace }: Step, { amount, unit }: Measured): number | null {
  if (replace) return unit === 'gal' ? convert('volume', amount, 'gal', 'L') : amount;
  return choice ? inUnitsOf(product(choice.product).form, amount, unit) : null;
}

type Added = Omit<AdditionEntry, keyof Extract<Entry, { kind: 'note' }> | 'origin'>;

function added({ choice }: Step, { amount, unit }: Measured): Added {
  if (!choice) return { product: 'Fresh water', agent: 'water', amount, unit, ...UNKNOWN_CONTENT };
  const { product: id, strength } = choice;
  return {
    product: capitalised(productName(id)),
    agent: agentOf(id),
    amount,
    unit,
    ...productContent(id, strength, amount, unit),
  };
}

/** g; less is said in ounces. */
const POUNDS_FROM_GRAMS = convert('mass', 1, 'lb', 'g');

/** As it was measured out, in the visitor's units; null for what has no amount. */
export function amountText(step: Step | null, { amount }: Done, units: UnitSystem): string | null {
  if (amount === null || !step) return null;
  const isUs = units === 'us';
  if (step.replace)
    return isUs
      ? `${numberText(convert('volume', amount, 'L', 'gal'), { figures: 4 })} US gal`
      : `${numberText(amount, { figures: 4 })} L`;
  const isLiquid = step.choice ? product(step.choice.product).form === 'liquid' : false;
  const [value, unit] = isLiquid
    ? isUs
      ? [convert('volume', amount, 'mL', 'fl oz'), 'fl oz' as const]
      : amount >= 1000
        ? [amount / 1000, 'L' as const]
        : [amount, 'mL' as const]
    : isUs
      ? amount >= POUNDS_FROM_GRAMS
        ? [convert('mass', amount, 'g', 'lb'), 'lb' as const]
        : [convert('mass', amount, 'g', 'oz'), 'oz' as const]
      : amount >= 1000
        ? [amount / 1000, 'kg' as const]
        : [amount, 'g' as const];
  return `${numberText(value, { figures: 4 })} ${UNIT_WORDS[unit]}`;
}
