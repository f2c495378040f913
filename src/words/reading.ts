/** The sentences for every refusal, warning and word: one place, shared by the command and the page. */
import { printMarkName } from '../core/card/print-mark.ts';
import type { RefusalCode, WarningCode, Word } from '../core/reading/reading.ts';
import type { Judgement } from '../core/reading/word.ts';

export interface ReasonMessage {
  /** What is wrong, one sentence. */
  readonly wrong: string;
  /** What to do, one sentence. */
  readonly remedy: string;
}

const REFUSALS: Record<RefusalCode, ReasonMessage> = {
  'not-an-image': {
    wrong: 'This file could not be opened as a picture.',
    remedy: 'Choose a photo saved as JPEG, PNG, WebP or AVIF.',
  },
  'no-card': {
    wrong: 'No card was found in the photo.',
    remedy: 'Lay the printed card flat and take the photo so that all four of its corner marks can be seen.',
  },
  'card-cut-off': {
    wrong: 'Part of the card lies outside the photo or is covered.',
    remedy: 'Step back a little until the whole card, with all four corner marks, is in the picture.',
  },
  'card-other-version': {
    wrong: 'This card is of a version that this page does not know.',
    remedy: 'Print a new card from the card page and use that.',
  },
  'on-a-screen': {
    wrong: 'This looks like a photo of a screen: the white of the card shows rows of pixels.',
    remedy: 'Take a photo of the printed card itself, with the strip in its slot.',
  },
  'two-cards': {
    wrong: 'More than one card lies in the photo.',
    remedy: 'Say which card to read, or take the photo again with only one card in it.',
  },
  'no-strip': {
    wrong: 'No strip was found in the grey slot of the card.',
    remedy: 'Lay the dipped strip in the grey slot, pads up, and take the photo again.',
  },
  'strip-mismatch': {
    wrong: 'The pads on the strip do not sit where the chosen strip scale has them, or are not of its colours.',
    remedy: 'Check that the right strip scale is chosen and that the pads face up.',
  },
  'strip-face-down': {
    wrong: 'A strip lies in the slot, but no pads can be seen on it.',
    remedy: 'Turn the strip over so that its pads face up, and take the photo again.',
  },
  'pads-dry': {
    wrong: 'The pads can’t be told from those of a strip that was never dipped.',
    remedy: 'Dip the strip, wait for as long as its bottle says, and then take the photo.',
  },
  'glare-over-pads': {
    wrong: 'The wet film mirrors something bright on half of the pads or more.',
    remedy: 'Turn the card or tilt the phone until the shine is off the strip, and take the photo again.',
  },
  'deep-shadow': {
    wrong: 'The edge of a deep shadow runs across the strip.',
    remedy:
      'Move the whole card into the shade, or keep your own shadow and the phone’s off it, and take the photo again.',
  },
  'two-lights': {
    wrong: 'Two lights of different colours fall on the two sides of the card.',
    remedy: 'Switch the lamp off, or turn away from it, so that one kind of light reaches the whole card.',
  },
  'no-colour': {
    wrong: 'The picture has lost its colours: it is black and white, or of one tint.',
    remedy: 'Switch off any filter or black-and-white mode of the camera and take the photo again.',
  },
  blurred: {
    wrong: 'The photo is too blurred to trust its colours.',
    remedy: 'Hold the phone still, let it focus on the card, and take the photo again.',
  },
  'too-dark': {
    wrong: 'The photo is too dark.',
    remedy: 'Go where there is more light, best in open shade by day, and take the photo again without flash.',
  },
  'greys-mixed': {
    wrong: 'The greys of this card are far from grey: the printer mixed them from colours.',
    remedy: 'Print the card again with black ink only, as the printer’s settings for greyscale or black ink allow.',
  },
  'blown-out': {
    wrong: 'The white of the card is overexposed, so its colours are lost.',
    remedy: 'Move out of direct sun into open shade, switch the flash off, and take the photo again.',
  },
};

const WARNINGS: Record<WarningCode, ReasonMessage> = {
  'black-only-card': {
    wrong: 'This card was printed without its colour patches, so the colours rest on its greys alone.',
    remedy: 'That is fine for a reading; a card printed in colour narrows the intervals of a scale that you taught.',
  },
  'uneven-light': {
    wrong: 'The light falls off strongly over the card.',
    remedy: 'Turn the card, or move it into even, open shade, for a surer reading.',
  },
  'shadow-edge': {
    wrong: 'The edge of a shadow runs across the slot, so the intervals are wider.',
    remedy: 'Move the whole card into even, open shade, and keep your own shadow off it.',
  },
  'mixed-light': {
    wrong: 'Light of two colours falls on the card, so the intervals are wider.',
    remedy: 'Switch off the lamp, or turn the card away from it, so that one kind of light reaches all of it.',
  },
  'glare-on-pad': {
    wrong: 'The wet film mirrors something bright on a pad, so its interval is wider.',
    remedy: 'Tilt the phone a little, so that the shine moves off the pad, and take the photo again.',
  },
  'pad-clipped': {
    wrong: 'A pad is overexposed in one colour, so its interval is wider.',
    remedy: 'Take the photo again in softer light, or darken the picture a little in the camera.',
  },
  'pad-unmatched': {
    wrong:
      'The colour of a pad is near no part of the chosen strip scale, so it has no value, and the other intervals are wider.',
    remedy: 'Check that the right strip scale is chosen; a pad can also be bleached, stained or past its date.',
  },
  'perhaps-dry': {
    wrong: 'The pads look much as they do before they are dipped.',
    remedy: 'If this strip was dipped, the values stand; if not, dip it, wait, and take the photo again.',
  },
  'colour-filter': {
    wrong:
      'The colours of the card are far paler or louder than printed, as a picture filter makes them, so the intervals are wider.',
    remedy: 'Switch off filters and vivid or pale picture modes of the camera and take the photo again.',
  },
  'greys-not-neutral': {
    wrong:
      'The greys of this card are not neutral, perhaps because the printer mixed them from colours, so the intervals are wider.',
    remedy: 'Print the card again with black ink only.',
  },
  'another-print': {
    wrong:
      'This is another print of the card than the one the scale was taught with, so its colour patches count for less and the intervals are wider.',
    remedy:
      'Use the card that the scale was taught with. Or make the scale know this one: photograph the chart once more beside it, with “Add another light” on the scales’ page; or correct two values or more of this strip by another test, and let the scale learn this print.',
  },
  'poor-fit': {
    wrong: 'The greys of the card do not fit together well in this photo, so the intervals are wider.',
    remedy: 'Lay the card flat in even, open shade, keep shadows off it, and take the photo again.',
  },
  'read-early': {
    wrong:
      'This photo was taken before the reading window opened: colours drift until then, by how much no interval here can say.',
    remedy: 'Take another photo inside the window.',
  },
  'photos-disagree': {
    wrong:
      'The photos tell different values of a pad, more than photos of one strip do, so its interval holds them all.',
    remedy: 'Read each strip by itself: discard this reading and begin again with one photo.',
  },
  'read-late': {
    wrong:
      'This photo was taken after the reading window had closed: colours drift from then on, by how much no interval here can say.',
    remedy: 'Dip a new strip and take its photo inside the window.',
  },
};

const WORDS: Record<Word, string> = {
  low: 'low',
  'in-range': 'in range',
  high: 'high',
  'off-scale': 'off the scale',
  unmatched: 'can’t tell',
};

export function refusalMessage(code: RefusalCode): ReasonMessage {
  return REFUSALS[code];
}

/** The doubt about another print, with the names of both where they are known. */
export function anotherPrintMessage(seen: number | null, taught: readonly number[]): ReasonMessage {
  const { remedy, wrong } = WARNINGS['another-print'];
  if (seen === null && taught.length === 0) return { wrong, remedy };
  const names = taught.map(printMarkName).join(' and ');
  const teacher = taught.length === 0 ? 'a card from before prints had marks' : `card ${names}`;
  const here = seen === null ? 'another print' : `card ${printMarkName(seen)}`;
  return {
    wrong: `This is ${here}; the scale was taught with ${teacher}. Its colour patches count for less and the intervals are wider.`,
    remedy,
  };
}

export function warningMessage(code: WarningCode): ReasonMessage {
  return WARNINGS[code];
}

/** All of them, in the order in which a page lists them. */
export function refusalMessages(): (ReasonMessage & { readonly code: RefusalCode })[] {
  return listed(REFUSALS);
}

export function warningMessages(): (ReasonMessage & { readonly code: WarningCode })[] {
  return listed(WARNINGS);
}

function listed<Code extends string>(
  messages: Record<Code, ReasonMessage>,
): (ReasonMessage & { readonly code: Code })[] {
  return (Object.keys(messages) as Code[]).map((code) => ({ code, ...messages[code] }));
}

/** "low", "perhaps low", "likely in range", "in range or high". `isSure` is null where that wasn't kept. */
export function judgementText({
  word,
  otherWord,
  isSure,
}: Omit<Judgement, 'isSure'> & { readonly isSure: boolean | null }): string {
  if (otherWord) return `${wordText(word)} or ${wordText(otherWord)}`;
  if (isSure !== false) return wordText(word);
  return `${word === 'in-range' ? 'likely' : 'perhaps'} ${wordText(word)}`;
}

function wordText(word: Word): string {
  return WORDS[word];
}
