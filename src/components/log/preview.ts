/** What a file would do to the logbook, before it does. */
import { isIdle, type MergeOutline } from '../../core/log/merge.ts';
import { CHOICE_GROUPS, type ChoiceGroup, consented } from '../../core/log/choices.ts';
import { h } from '../dom.ts';
import { choiceLines, replaceBox } from './preview-choices.ts';
import type { Preview } from './import.ts';
import { tableColumns } from './table-columns.ts';
import type { TableChoice } from '../../core/log/wide-table.ts';
import { countText } from '../../words/grammar.ts';
import { problemText } from '../../words/log.ts';

/** More lines than this are counted, not listed. */
const MAX_PROBLEMS = 8;

export function previewView(
  { fileName, plan, problems, table }: Preview,
  actions: {
    readonly onDo: (replace: ReadonlySet<ChoiceGroup>) => void;
    readonly onLeave: () => void;
    /** The columns of an ordinary table hold something else. */
    readonly onTable: (choice: TableChoice) => void;
  },
): HTMLElement {
  const idle = isIdle(plan);
  const lines = planLines(plan).map((line) => h('li', {}, line));
  const bring = h('button', { type: 'button', class: 'primary' }, 'Bring it in');
  const boxes = CHOICE_GROUPS.map((group) => replaceBox(group, plan.choices)).filter((part) => part !== null);
  bring.addEventListener('click', () => {
    const ticked = boxes.filter(({ box }) => box.checked).map(({ group }) => group);
    actions.onDo(new Set(ticked));
  });
  const leave = h('button', { type: 'button' }, idle ? 'Close' : 'Cancel');
  leave.addEventListener('click', actions.onLeave);
  return h(
    'section',
    { class: 'import-preview' },
    h('h3', { tabindex: -1 }, 'What ', h('bdi', {}, fileName), ' would do'),
    h('ul', {}, ...lines),
    table && tableColumns(table, actions.onTable),
    ...boxes.map(({ element }) => element),
    problems.length === 0
      ? null
      : h(
          'div',
          { class: 'wrong' },
          h('p', {}, `${countText(problems.length, 'thing', 'things')} in it can’t be used and would be left out:`),
          h(
            'ul',
            {},
            ...problems.slice(0, MAX_PROBLEMS).map((problem) => h('li', {}, problemText(problem))),
            problems.length > MAX_PROBLEMS ? h('li', {}, `and ${problems.length - MAX_PROBLEMS} more`) : null,
          ),
        ),
    h('p', { class: 'buttons' }, idle ? null : bring, idle ? null : ' ', leave),
  );
}

function planLines(plan: MergeOutline): string[] {
  if (isIdle(plan)) return ['Nothing: all that can be used of it is here already.'];
  const { entries, pools, scales, choices, pictures, outOfBin } = plan;
  const lines = [
    ...changeLines(entries, 'entry', 'entries'),
    ...changeLines(pools, 'pool', 'pools'),
    ...changeLines(scales, 'strip scale', 'strip scales'),
    ...choiceLines(choices),
    pictures > 0 ? `Adds ${countText(pictures, 'picture', 'pictures')}.` : '',
    outOfBin > 0 ? `Of these, ${countText(outOfBin, 'entry was', 'entries were')} deleted here before.` : '',
    'Nothing here is deleted. It can be taken back afterwards.',
  ];
  return lines.filter(Boolean);
}

function changeLines({ add, replace, same, older }: MergeOutline['entries'], one: string, many: string): string[] {
  return [
    add > 0 ? `Adds ${countText(add, one, many)}.` : '',
    replace > 0 ? `Brings ${countText(replace, one, many)} to a later state.` : '',
    same > 0 ? `${countText(same, `${one} is`, `${many} are`)} here already.` : '',
    older > 0 ? `${countText(older, `${one} is`, `${many} are`)} older than what is here, and left out.` : '',
  ];
}

export function importedText({ fileName, plan }: Preview, groups: ReadonlySet<ChoiceGroup>): string {
  const { entries, pools } = plan;
  const choices = consented(plan.choices, groups);
  const chosen = choices.add.length + choices.replace.length;
  const parts = [
    countText(entries.add + entries.replace, 'entry', 'entries'),
    pools.add > 0 ? countText(pools.add, 'pool', 'pools') : '',
    chosen > 0 ? countText(chosen, 'setting or field of the plan', 'settings or fields of the plan') : '',
  ].filter(Boolean);
  return `Brought in from ${fileName} and now in the logbook: ${parts.join(', ')}. It can be taken back below.`;
}
