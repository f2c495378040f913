/** Under a value entered by hand: lets the owner's scale learn what colour its pad takes at that value. */
import { keepScale, keptScales } from '../../browser/scales.ts';
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { LEARN, learnButtonText } from '../../words/learnt.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import type { Entry } from '../../core/reading/entry.ts';

interface Read {
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
  readonly time: Date;
}

/** Null where there is nothing to learn: no value by hand, a practice scale, or a pad that matched nothing. */
export function teachButton({ pad, byHand }: Entry, { outcome, scale, time }: Read): HTMLElement | null {
  const { basis } = outcome;
  const { sigma } = pad;
  if (byHand === null || !pad.matched || !basis || sigma === undefined || scale.origin !== 'taught') return null;
  const said = h('span', { role: 'status', class: 'hint' });
  const button = h('button', { type: 'button', class: 'plain' }, learnButtonText(byHand.method));
  const learn = async () => {
    const [{ doubtOf, withKnown }, { scales }] = await Promise.all([import('./learning.ts'), keptScales()]);
    const kept = scales.find(({ id }) => id === scale.id);
    if (!kept) return LEARN.gone;
    const known = {
      parameter: pad.quantity,
      value: byHand.value,
      doubt: doubtOf(pad.quantity, byHand),
      lab: pad.lab,
      teaching: basis.teaching,
      sigma,
    };
    const lesson = withKnown(kept, known, time.toISOString());
    if (lesson.reason) return LEARN[lesson.reason];
    await keepScale(lesson.scale);
    button.hidden = true;
    return LEARN.learnt;
  };
  button.addEventListener('click', () => {
    learn().then(
      (text) => said.replaceChildren(text, ' ', h('a', { href: href('scales/') }, LEARN.shelf)),
      (error: unknown) => {
        console.error(error);
        said.replaceChildren(LEARN.failed);
      },
    );
  });
  said.append(h('a', { href: href('learn/known-water/') }, LEARN.make));
  return h('p', { class: 'teach no-print' }, button, ' ', said);
}
