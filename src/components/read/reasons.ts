/** Sentences about a photo, each with a letter where its place is drawn on the card. */
import type { ReasonMessage } from '../../core/reading/messages.ts';
import type { Place } from '../../core/reading/reading.ts';
import { h } from '../dom.ts';

/** A letter for every code that has a place, in the order of the places. */
export function lettersOf(places: readonly Place[]): ReadonlyMap<string, string> {
  const codes = [...new Set(places.map(({ code }) => code))];
  return new Map(codes.map((code, i) => [code, String.fromCharCode(0x61 + i)]));
}

export function reasonLine(message: ReasonMessage, letter: string | undefined): HTMLElement {
  return h(
    'p',
    { class: 'wrong' },
    letter === undefined ? null : h('span', { class: 'place-letter' }, `${letter} `),
    h('strong', {}, message.wrong),
    ' ',
    message.remedy,
  );
}
