/** How long after the dip the photo was taken: shown, and asked where nothing timed it. */
import type { StripScale } from '../../core/scale/schema.ts';
import { h } from '../dom.ts';
import { windowText } from '../../words/timer.ts';
import { NO_SINCE_DIP } from '../../words/timer.ts';
import { isAsking, typedNumber } from '../typed.ts';

/** As the logbook takes it. */
const MAX_SECONDS = 86_400;

/**
 * @param seconds from the end of the dip; null where it isn't known
 * @param onChange told what was typed; null when the field was emptied
 */
export function sinceDipField(
  scale: StripScale,
  seconds: number | null,
  onChange: (seconds: number | null) => void,
): HTMLElement {
  const input = h('input', {
    id: 'since-dip',
    inputmode: 'numeric',
    autocomplete: 'off',
    'aria-describedby': 'since-dip-window',
    value: seconds === null ? null : Math.round(seconds),
  });
  input.addEventListener('change', () => {
    const typed = typedNumber(input, { min: 0, max: MAX_SECONDS });
    const isGood = typed === null || (typed >= 0 && typed <= MAX_SECONDS);
    input.setCustomValidity(isGood || isAsking(input.parentElement!) ? '' : NO_SINCE_DIP);
    if (isGood && input.reportValidity()) onChange(typed && Math.round(typed));
    else input.reportValidity();
  });
  const hint = `This strip wants it ${windowText(scale)} after. Leave it empty if you don’t know.`;
  return h(
    'p',
    { class: 'since-dip' },
    h('label', { for: 'since-dip' }, 'Seconds from dip to photo '),
    input,
    h('span', { id: 'since-dip-window', class: 'hint no-print' }, ` ${hint}`),
  );
}
