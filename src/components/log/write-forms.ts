/** Writing into the logbook by hand: an addition, the weather, a note, or values of another test. */
import type { WriteForm } from './write-fields.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import {
  AMOUNT_UNITS,
  type AmountUnit,
  type Entry,
  entrySchema,
  NOTHING_SAID,
  typedFields,
  SKIES,
  toLogged,
} from '../../core/log/schema.ts';
import { agentOf, productContent, UNKNOWN_CONTENT } from '../../core/log/product-content.ts';
import { cleanText } from '../../core/text.ts';
import { isPlausibleTime } from '../../core/log/time.ts';
import { TYPED_METHODS } from '../../core/measurement/methods.ts';
import { QUANTITY_IDS } from '../../core/measurement/quantities.ts';
import { measuredByHand } from '../../core/reading/measured.ts';
import { PRODUCT_IDS } from '../../core/water/products.ts';
import { productName } from '../../words/plan/names.ts';
import { need } from '../dom.ts';
import { plausibleRain, plausibleTemperature, toCelsius, toMillimetres } from '../keep/measures.ts';
import { capitalised } from '../../words/grammar.ts';
import type { Plausible } from '../../core/typed/number.ts';
import { PLAUSIBLE, PLAUSIBLE_AMOUNT, plausibleFor } from '../../core/typed/plausible.ts';
import { ANSWER_FIRST } from '../../words/typed.ts';
import { isAsking, typedNumber } from '../typed.ts';

export type Written = { readonly ok: true; readonly entry: Entry } | { readonly ok: false; readonly message: string };

/** What the form says, as an entry; or what is missing, in a sentence. */
export function readForm(form: HTMLFormElement, poolId: string): Written {
  const kind = form.dataset['kind'] as WriteForm['kind'];
  const when = whenOf(need(form, '[name=when]'));
  if (Number.isNaN(when.getTime())) return { ok: false, message: 'Please give the day and the time.' };
  if (!isPlausibleTime(when.toISOString(), new Date().toISOString())) {
    return { ok: false, message: `The date lies in ${when.getFullYear()}. Please give one from 1990 to tomorrow.` };
  }
  const common = {
    id: newId(),
    poolId,
    revision: 1,
    edited: new Date().toISOString(),
    time: when.toISOString(),
    zoneMinutes: zoneMinutesAt(when),
    note: cleanText(valueOf(form, 'note'), 2000).trim(),
  };
  const missing = missingIn(form, kind, common.note);
  const parsed = entrySchema.safeParse({ ...common, kind, ...fieldsOf(form, kind) });
  if (isAsking(form)) return { ok: false, message: ANSWER_FIRST };
  if (missing) return { ok: false, message: missing };
  if (parsed.success) return { ok: true, entry: parsed.data };
  return { ok: false, message: 'A number here can’t be right. Please look at it once more.' };
}

/** A time that was left as it was filled in means now, to the second; the field itself knows minutes only. */
function whenOf(field: HTMLInputElement): Date {
  return field.value === field.dataset['filledIn'] ? new Date() : new Date(field.value);
}

function missingIn(form: HTMLFormElement, kind: WriteForm['kind'], note: string): string | null {
  const any = (names: readonly string[]) => names.some((name) => valueOf(form, name).trim() !== '');
  if (kind === 'note') return note === '' ? 'There is no note to keep yet.' : null;
  if (kind === 'reading') return any(QUANTITY_IDS) ? null : 'Please give at least one value.';
  if (kind === 'weather') {
    return any(['sky', 'air', 'rain', 'bathers']) || note !== '' ? null : 'There is no weather to keep yet.';
  }
  if (!any(['product'])) return 'Please say what you added.';
  return (amountOf(form) ?? 0) > 0 ? null : 'Please say how much you added.';
}

function fieldsOf(form: HTMLFormElement, kind: WriteForm['kind']): object {
  switch (kind) {
    case 'reading':
      return readingFields(form);
    case 'addition':
      return additionFields(form);
    case 'weather': {
      const air = numberOf(form, 'air', plausibleTemperature());
      const rain = numberOf(form, 'rain', plausibleRain());
      const sky = SKIES.find((each) => each === valueOf(form, 'sky')) ?? null;
      return {
        airTemperatureC: air === null ? null : toCelsius(air),
        sky,
        rainMm: rain === null ? null : toMillimetres(rain),
        bathers: numberOf(form, 'bathers'),
      };
    }
    case 'note':
      return {};
  }
}

function readingFields(form: HTMLFormElement): object {
  const method = TYPED_METHODS.find((each) => each === valueOf(form, 'method')) ?? 'unsaid';
  const values = QUANTITY_IDS.flatMap((quantity) => {
    const isTemperature = quantity === 'temperature';
    const typed = numberOf(form, quantity, isTemperature ? plausibleTemperature() : plausibleFor(quantity));
    if (typed === null) return [];
    const value = isTemperature ? toCelsius(typed) : typed;
    return [toLogged(measuredByHand(quantity, { value, method }, ''), NOTHING_SAID)];
  });
  return typedFields(values);
}

function amountUnit(form: HTMLFormElement): AmountUnit {
  return AMOUNT_UNITS.find((each) => each === valueOf(form, 'unit')) ?? 'L';
}

/** So much of a product; of water and of other things it may be more. */
function amountOf(form: HTMLFormElement): number | null {
  const isProduct = PRODUCT_IDS.some((each) => each === valueOf(form, 'product'));
  return numberOf(form, 'amount', isProduct ? PLAUSIBLE_AMOUNT[amountUnit(form)] : undefined);
}

function additionFields(form: HTMLFormElement): object {
  const unit = amountUnit(form);
  const amount = amountOf(form) ?? 0;
  const own = cleanText(valueOf(form, 'name'), 120).trim();
  const common = { origin: 'typed', amount, unit } as const;
  const chosen = valueOf(form, 'product');
  const id = PRODUCT_IDS.find((each) => each === chosen);
  if (id) {
    const content = productContent(id, numberOf(form, 'strength', PLAUSIBLE.percent), amount, unit);
    return { ...common, product: own || capitalised(productName(id)), agent: agentOf(id), ...content };
  }
  if (chosen === 'water') return { ...common, product: own || 'Fresh water', agent: 'water', ...UNKNOWN_CONTENT };
  return { ...common, product: own || 'Something else', agent: 'other', ...UNKNOWN_CONTENT };
}

function valueOf(form: HTMLFormElement, name: string): string {
  const field = form.elements.namedItem(name);
  return field instanceof HTMLInputElement || field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement
    ? field.value
    : '';
}

/** Null when empty, NaN when it is no number or one of two. */
function numberOf(form: HTMLFormElement, name: string, plausible?: Plausible): number | null {
  return typedNumber(need(form, `[name="${name}"]`), plausible);
}
