/** A photo that can't be read: what is wrong, what to do, and the photo. */
import { h } from '../dom.ts';
import { type Reason, reasonLine } from './reasons.ts';

/**
 * @param onAgain opens the camera that the photo came from; without it another file is chosen
 * @param other what else can be done with this photo
 */
export function refusal(
  reasons: readonly Reason[],
  picture: HTMLElement | null,
  onAgain: (() => void) | null,
  other: HTMLElement | null = null,
): HTMLElement {
  const name = onAgain ? 'Open the camera again' : 'Choose another photo';
  const again = h('button', { type: 'button', class: 'primary' }, name);
  again.addEventListener('click', () => (onAgain ?? chooseFile)());
  return h(
    'section',
    { class: 'refusal', 'aria-labelledby': 'refusal-title' },
    h('h2', { id: 'refusal-title', tabindex: -1 }, 'This photo can’t be read'),
    ...reasons.map(reasonLine),
    other,
    h('p', { class: 'no-print' }, again),
    picture,
  );
}

function chooseFile(): void {
  document.querySelector<HTMLInputElement>('#photo')?.click();
}
