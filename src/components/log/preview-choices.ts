/** What a file would do to the settings and to the plan's form; what is here stays unless its box is ticked. */
import { type Choice, type ChoiceChanges, type ChoiceGroup, groupOf } from '../../core/log/choices.ts';
import { h } from '../dom.ts';
import { settings } from '../../browser/settings.ts';
import { choiceName, choiceText } from '../../words/choices.ts';
import { countText } from '../../words/grammar.ts';

const GROUPS: Record<ChoiceGroup, { readonly one: string; readonly many: string; readonly here: string }> = {
  plan: { one: 'field of the plan', many: 'fields of the plan', here: 'what the plan’s form holds here' },
  settings: { one: 'setting', many: 'settings', here: 'the settings here' },
};

export function choiceLines({ add, replace, same }: ChoiceChanges): string[] {
  const filled = (Object.keys(GROUPS) as ChoiceGroup[]).map((group) => {
    const { one, many } = GROUPS[group];
    const choices = add.filter((choice) => groupOf(choice) === group);
    if (choices.length === 0) return '';
    const names = choices.map((choice) => `${choiceName(choice)} ${choiceText(choice, settings.units())}`).join('; ');
    return `Fills in ${countText(choices.length, one, many)} that ${choices.length === 1 ? 'is' : 'are'} blank here: ${names}.`;
  });
  return [
    ...filled,
    replace.length > 0
      ? `${countText(replace.length, 'setting or field of the plan differs', 'settings or fields of the plan differ')} from what is here, and would stay as here unless you tick so below.`
      : '',
    same > 0
      ? `${countText(same, 'setting or field of the plan is', 'settings or fields of the plan are')} the same here.`
      : '',
  ];
}

export interface ReplaceBox {
  readonly group: ChoiceGroup;
  readonly box: HTMLInputElement;
  readonly element: HTMLElement;
}

/** The question whether the file's choices may take the place of those here; null where none differ. */
export function replaceBox(group: ChoiceGroup, { replace }: ChoiceChanges): ReplaceBox | null {
  const differing = replace.filter(({ after }) => groupOf(after) === group);
  if (differing.length === 0) return null;
  const box = h('input', { type: 'checkbox', name: `replace-${group}` });
  const lines = differing.map(({ before, after }) =>
    h('li', {}, `${choiceName(after)}: here `, value(before), ', in the file ', value(after)),
  );
  const label = h('label', {}, box, ` Put the file’s in place of ${GROUPS[group].here}:`);
  return { group, box, element: h('div', { class: 'replace-choices' }, h('p', {}, label), h('ul', {}, ...lines)) };
}

function value(choice: Choice): HTMLElement {
  return h('bdi', {}, choiceText(choice, settings.units()));
}
