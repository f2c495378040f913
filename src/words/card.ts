/** What is printed on the card. */
import type { CardWords } from '../core/card/drawing.ts';

export const CARD_WORDS: CardWords = {
  title: 'Dipwise card',
  use: ['Lay the dipped strip in the grey slot, pads up.', 'Open shade, no flash, the whole card in view.'],
  version: (version) => `version ${version}`,
  variant: { colour: 'colour', black: 'black only' },
  print: 'print',
  slot: 'the strip lies here, either end first',
  printing: 'Print at 100 %: the rule measures 50 mm. Plain matt paper.',
  firstPrinting: ['Print at 100 %: the rule measures 50 mm.', 'Plain matt paper. Keep it dry and shaded.'],
  black: [
    'No colour patches on this card',
    'It is for printers with black ink only.',
    'Colours are put right by the greys alone,',
    'so the readings come with wider intervals.',
  ],
};
