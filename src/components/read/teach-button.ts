/** Under a value entered by hand: lets the owner's scale learn what colour its pad takes at that value. */
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { LEARN, learnButtonText } from '../../words/learnt.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { learnButton } from './learn-button.ts';
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
  const button = h('button', { type: 'button', class: 'plain' }, learnButtonText(byHand.method));
  const said = learnButton(button, scale.id, async (kept) => {
    const { doubtOf, withKnown } = await import('./learning.ts');
    const known = {
      parameter: pad.quantity,
      value: byHand.value,
      doubt: doubtOf(pad.quantity, byHand),
      lab: pad.lab,
      teaching: basis.teaching,
      sigma,
    };
    const lesson = withKnown(kept, known, time.toISOString());
    return { scale: lesson.scale, text: LEARN[lesson.reason ?? 'learnt'] };
  });
  said.append(h('a', { href: href('learn/known-water/') }, LEARN.make));
  return h('p', { class: 'teach no-print' }, button, ' ', said);
}
