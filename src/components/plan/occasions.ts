/** One press for an occasion, a season or a piece of equipment: what is done then, in its order, for this pool. */
import type { Plan } from '../../core/water/plan/types.ts';
import type { Occasion } from '../../core/water/routines/item.ts';
import { routineFor, type RoutineId, routinesOf, USUAL_OCCASION } from '../../core/water/routines/routine.ts';
import { convert, type UnitSystem } from '../../core/water/units.ts';
import { caution } from '../../words/plan/cautions.ts';
import { itemText, ROUTINE_PAGES, ROUTINE_PRACTICE, routineTitle } from '../../words/plan/routines.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { rainUnit } from '../../words/units.ts';
import { list, section } from './sections.ts';

/** What is chosen stays chosen while the plan is drawn anew; undefined until somebody chooses. */
let chosen: RoutineId | null | undefined;
let occasion: Occasion = USUAL_OCCASION;

interface Asked {
  readonly figure: keyof Occasion;
  readonly label: string;
  readonly max: number;
}

const ASKED: Partial<Record<RoutineId, Asked>> = {
  'after-rain': { figure: 'rainMm', label: 'Rain', max: 500 },
  'after-party': { figure: 'bathers', label: 'Bathers', max: 1000 },
  'before-leaving': { figure: 'days', label: 'Days away', max: 120 },
};

export function occasions(plan: Plan, units: UnitSystem): HTMLElement {
  const shown = h('div', { class: 'routine', 'aria-live': 'polite' });
  const buttons = new Map<RoutineId, HTMLButtonElement>();
  const show = (): void => {
    for (const [id, button] of buttons) button.setAttribute('aria-pressed', String(id === chosen));
    shown.replaceChildren(...(chosen ? routineView(chosen, plan, units) : []));
  };
  for (const id of routinesOf(plan)) {
    const button = h('button', { type: 'button' }, routineTitle(id));
    button.addEventListener('click', () => {
      chosen = chosen === id ? null : id;
      show();
    });
    buttons.set(id, button);
  }
  if (chosen && !buttons.has(chosen)) chosen = undefined;
  if (chosen === undefined && plan.input.look.water === 'green') chosen = 'green-water';
  show();
  const whole = section('For an occasion', h('div', { class: 'occasions no-print' }, ...buttons.values()), shown);
  whole.classList.add('occasion-part');
  return whole;
}

function routineView(id: RoutineId, plan: Plan, units: UnitSystem): HTMLElement[] {
  const body = h('div', {});
  const draw = (): void => {
    const { items, cautions } = routineFor(id, plan, occasion);
    body.replaceChildren(
      h('ol', {}, ...items.map((one) => h('li', {}, itemText(one, units)))),
      list(
        cautions.map((code) => caution(code).text),
        'cautions',
      )!,
      h(
        'p',
        { class: 'hint' },
        `${ROUTINE_PRACTICE} `,
        h('a', { href: href(`learn/${ROUTINE_PAGES[id]}/`) }, 'More about it'),
      ),
    );
  };
  draw();
  return [h('h3', {}, routineTitle(id)), askFor(id, units, draw), body].filter((part) => part !== null);
}

function askFor(id: RoutineId, units: UnitSystem, draw: () => void): HTMLElement | null {
  const asked = ASKED[id];
  if (!asked) return null;
  const { figure, label, max } = asked;
  const perUnit = figure === 'rainMm' && units === 'us' ? convert('length', 1, 'in', 'mm') : 1;
  const isInches = perUnit !== 1;
  const value = isInches ? (occasion[figure] / perUnit).toFixed(1) : occasion[figure];
  const field = h('input', { type: 'number', min: 0, max, step: isInches ? 0.1 : 1, inputmode: 'decimal', value });
  field.addEventListener('input', () => {
    const value = field.valueAsNumber * perUnit;
    if (!(value >= 0 && value <= max)) return;
    occasion = { ...occasion, [figure]: value };
    draw();
  });
  return h(
    'label',
    { class: 'occasion no-print' },
    `${figure === 'rainMm' ? `${label}, ${rainUnit(units)}` : label} `,
    field,
  );
}
