/** One scale on the shelf: what it is, what it tells apart, and what can be done with it. */
import { quantityTitle } from '../../words/quantities.ts';
import type { Learnt, StripScale } from '../../core/scale/schema.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { button, said } from './button.ts';
import { concernList } from '../scale/concerns.ts';
import { padRibbon } from '../scale/pad-ribbon.ts';
import { learntText } from '../../words/learnt.ts';
import { byEyeNotes, scaleFacts } from '../../words/shelf.ts';

export interface EntryActions {
  readonly onRead: () => void;
  readonly onEdit: () => void;
  readonly onDuplicate: () => void;
  readonly onSave: () => void;
  readonly onDelete: () => void;
  readonly onForget: (learnt: Learnt) => void;
}

export function scaleEntry(scale: StripScale, concerns: readonly string[], actions: EntryActions): HTMLElement {
  return h(
    'article',
    { class: 'scale', 'data-id': scale.id, 'aria-labelledby': `scale-${scale.id}` },
    h('h3', { id: `scale-${scale.id}`, tabindex: -1 }, scale.name),
    h('p', { class: 'hint' }, scaleFacts(scale)),
    h(
      'ul',
      { class: 'scale-pads' },
      ...scale.pads.map((pad) => h('li', {}, h('h4', {}, quantityTitle(pad.parameter)), padRibbon(pad))),
    ),
    h('details', {}, h('summary', {}, 'What can be told apart', said(scale)), concernList(concerns), byEye(scale)),
    everyEye(scale),
    knownWater(scale, actions.onForget),
    h(
      'p',
      { class: 'buttons' },
      button('Read with it', scale, actions.onRead, 'boxed'),
      button('Edit', scale, actions.onEdit),
      h(
        'a',
        { href: `${href('scales/teach/')}?add=${encodeURIComponent(scale.id)}` },
        'Add another light',
        said(scale),
      ),
      button('Duplicate', scale, actions.onDuplicate),
      button('Save to a file', scale, actions.onSave),
      button('Delete', scale, actions.onDelete),
    ),
  );
}

function knownWater(scale: StripScale, onForget: EntryActions['onForget']): HTMLElement | null {
  const { learnt = [] } = scale;
  if (learnt.length === 0) return null;
  const items = learnt.map((one) =>
    h(
      'li',
      {},
      learntText(one),
      ' ',
      button('Forget it', scale, () => onForget(one)),
    ),
  );
  return h('details', {}, h('summary', {}, 'What it has learnt from known water', said(scale)), h('ul', {}, ...items));
}

/** Drawn when it is opened. */
function everyEye(scale: StripScale): HTMLElement {
  const details = h('details', {}, h('summary', {}, 'As every kind of eyes sees it', said(scale)));
  const open = async () => {
    const { eyeTables } = await import('../scale/eye-tables.ts');
    details.append(eyeTables(scale));
  };
  details.addEventListener('toggle', () => void open(), { once: true });
  return details;
}

function byEye(scale: StripScale): HTMLElement {
  const notes = byEyeNotes(scale);
  return h(
    'div',
    {},
    h(
      'p',
      {},
      notes.length === 0
        ? 'By eye, neighbouring blocks can be told apart with any colour vision.'
        : 'By eye, these neighbours look alike. Dipwise compares numbers, so its readings don’t depend on your eyes:',
    ),
    notes.length > 0 ? h('ul', {}, ...notes.map((note) => h('li', {}, note))) : null,
    h('p', { class: 'hint' }, h('a', { href: href('learn/colour-vision/') }, 'How colour vision differs')),
  );
}
