/** The visitor's choices as the logbook's file has them, out of and into what this browser remembers. */
import { type Choice, choiceSchema } from '../core/log/choices.ts';
import { type Bottle, keepTyped, keptForm, NO_FORM } from './plan-form.ts';
import { forget, PLAN_FORM_KEY, remember, remembered } from './remembered.ts';

/** Under which name each setting is remembered. */
const REMEMBERED = {
  'settings.units': 'units',
  'settings.eyes': 'eyes',
  'settings.sound': 'sound',
  'settings.theme': 'theme',
  'settings.scale': 'scale',
  'settings.pool': 'log-pool',
} as const;
type SettingKey = keyof typeof REMEMBERED;
const SPANS_KEY = 'spans';

/** Only what was chosen: what is as the site has it by itself is left out, and so is what isn't sound. */
export function keptChoices(): Choice[] {
  const settings = Object.entries(REMEMBERED).map(([key, name]) => ({ key, value: remembered(name) }));
  const form = keptForm();
  const fields = Object.entries(form?.fields ?? {}).map(([at, value]) => ({ key: `plan.${at}`, value }));
  const whole = [
    { key: 'plan.shelf', value: form?.shelf },
    { key: 'plan.bottles', value: Object.keys(form?.bottles ?? {}).length > 0 ? form!.bottles : null },
    { key: 'plan.spans', value: parsed(remembered(SPANS_KEY)) },
  ];
  return [...settings, ...fields, ...whole].flatMap((raw) => {
    const choice = choiceSchema.safeParse(raw);
    return choice.success ? [choice.data] : [];
  });
}

/** What the form says of a pool stands in the pool's own record, where there is one. */
export function isNoPools({ key }: Choice): boolean {
  return !/^plan\.(pool|fill)\./.test(key) || !keptForm()?.pool;
}

export function putChoices(choices: readonly Choice[]): void {
  const form = keptForm() ?? NO_FORM;
  const fields = new Map(Object.entries(form.fields));
  let { shelf, bottles } = form;
  let isFormChanged = false;
  for (const { key, value } of choices) {
    if (key in REMEMBERED) remember(REMEMBERED[key as SettingKey], value as string);
    else if (key === 'plan.spans') remember(SPANS_KEY, JSON.stringify(value));
    else {
      isFormChanged = true;
      if (key === 'plan.shelf') shelf = value as Record<string, string>;
      else if (key === 'plan.bottles') bottles = value as Record<string, Bottle>;
      else fields.set(key.slice('plan.'.length), value);
    }
  }
  if (isFormChanged) keepTyped({ fields: Object.fromEntries(fields), shelf, bottles });
}

export function removeChoices(keys: readonly Choice['key'][]): void {
  const gone = new Set<string>(keys);
  for (const [key, name] of Object.entries(REMEMBERED)) if (gone.has(key)) forget(name);
  if (gone.has('plan.spans')) forget(SPANS_KEY);
  const form = keptForm();
  if (!form) return;
  const fields = Object.entries(form.fields).filter(([at]) => !gone.has(`plan.${at}`));
  const shelf = gone.has('plan.shelf') ? null : form.shelf;
  const bottles = gone.has('plan.bottles') ? {} : form.bottles;
  if (fields.length === 0 && shelf === null && Object.keys(bottles).length === 0 && !form.pool) forget(PLAN_FORM_KEY);
  else keepTyped({ fields: Object.fromEntries(fields), shelf, bottles });
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? 'null');
  } catch {
    return null;
  }
}
