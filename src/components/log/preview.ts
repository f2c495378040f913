/** What a file would do to the logbook, before it does. */
import { type Changes, isIdle, type MergePlan } from '../../core/log/merge.ts';
import { h } from '../dom.ts';
import type { Preview } from './import.ts';
import { countText } from './wording.ts';

/** More would be a wall. */
const MOST_PROBLEMS = 8;

export function previewView(
  { fileName, plan, problems }: Preview,
  actions: { readonly onDo: () => void; readonly onLeave: () => void },
): HTMLElement {
  const idle = isIdle(plan);
  const lines = planLines(plan).map((line) => h('li', {}, line));
  const bring = h('button', { type: 'button', class: 'primary' }, 'Bring it in');
  bring.addEventListener('click', actions.onDo);
  const leave = h('button', { type: 'button' }, idle ? 'Close' : 'Leave it');
  leave.addEventListener('click', actions.onLeave);
  return h(
    'section',
    { class: 'import-preview' },
    h('h3', { tabindex: -1 }, 'What ', h('bdi', {}, fileName), ' would do'),
    h('ul', {}, ...lines),
    problems.length === 0
      ? null
      : h(
          'div',
          { class: 'wrong' },
          h('p', {}, `${countText(problems.length, 'thing', 'things')} in it can’t be used and would be left out:`),
          h(
            'ul',
            {},
            ...problems.slice(0, MOST_PROBLEMS).map(({ where, message }) => h('li', {}, `${where}: ${message}`)),
            problems.length > MOST_PROBLEMS ? h('li', {}, `and ${problems.length - MOST_PROBLEMS} more`) : null,
          ),
        ),
    h('p', { class: 'buttons' }, idle ? null : bring, idle ? null : ' ', leave),
  );
}

function planLines(plan: MergePlan): string[] {
  if (isIdle(plan)) return ['Nothing: all that can be used of it is here already.'];
  const { entries, pools, scales, pictureIds, outOfBin } = plan;
  const lines = [
    ...changeLines(entries, 'entry', 'entries'),
    ...changeLines(pools, 'pool', 'pools'),
    ...changeLines(scales, 'strip scale', 'strip scales'),
    pictureIds.length > 0 ? `Adds ${countText(pictureIds.length, 'picture', 'pictures')}.` : '',
    outOfBin.length > 0
      ? `Of these, ${countText(outOfBin.length, 'entry was', 'entries were')} deleted here before.`
      : '',
    'Nothing here is deleted. It can be taken back afterwards.',
  ];
  return lines.filter(Boolean);
}

function changeLines<T>({ add, replace, same, older }: Changes<T>, one: string, many: string): string[] {
  return [
    add.length > 0 ? `Adds ${countText(add.length, one, many)}.` : '',
    replace.length > 0 ? `Brings ${countText(replace.length, one, many)} to a later state.` : '',
    same > 0 ? `${countText(same, `${one} is`, `${many} are`)} here already.` : '',
    older > 0 ? `${countText(older, `${one} is`, `${many} are`)} older than what is here, and left out.` : '',
  ];
}

export function importedText({ fileName, plan: { entries, pools } }: Preview): string {
  const changed = entries.add.length + entries.replace.length;
  const extra = pools.add.length > 0 ? ` and ${countText(pools.add.length, 'pool', 'pools')}` : '';
  return `${countText(changed, 'entry', 'entries')}${extra} from ${fileName} ${changed + pools.add.length === 1 ? 'is' : 'are'} in the logbook. It can be taken back below.`;
}
