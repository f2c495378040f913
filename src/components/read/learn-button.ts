/** A button that lets the owner's scale learn something, and what is said of it. */
import { keepScale, keptScales } from '../../browser/scales.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { LEARN } from '../../words/learnt.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';

interface Lesson {
  /** With what it learnt; null where it learnt nothing. */
  readonly scale: StripScale | null;
  readonly text: string;
}

/** @param learn what the scale as it is kept now makes of the lesson */
export function learnButton(
  button: HTMLButtonElement,
  scaleId: string,
  learn: (kept: StripScale) => Promise<Lesson>,
): HTMLElement {
  const said = h('span', { role: 'status', class: 'hint' });
  const run = async (): Promise<string> => {
    const kept = (await keptScales()).scales.find(({ id }) => id === scaleId);
    if (!kept) return LEARN.gone;
    const { scale, text } = await learn(kept);
    if (!scale) return text;
    await keepScale(scale);
    button.hidden = true;
    return text;
  };
  button.addEventListener('click', () => {
    run().then(
      (text) => said.replaceChildren(text, ' ', h('a', { href: href('scales/') }, LEARN.shelf)),
      (error: unknown) => {
        console.error(error);
        said.replaceChildren(LEARN.failed);
      },
    );
  });
  return said;
}
