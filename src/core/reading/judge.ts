/** May this photo be read at all? From the card's samples alone, before any colour is trusted. */
import { NEUTRALS } from '../card/geometry.ts';
import { decodeSrgb } from '../colour/lab.ts';
import type { CardSamples } from '../samples.ts';
import type { RefusalCode } from './reading.ts';
import { mean } from '../math/average.ts';

/** Encoded level (0-1) that the paper must reach; below it noise and rounding outweigh the pads' steps. */
const DARKEST_PAPER = 0.3;
/** Share of the lightest printed greys that may be clipped: paper alone may be, pads are hardly ever as light. */
const LIGHTEST_INK = 0.15;
const MAX_CLIPPED = 0.25;
/** Linear contrast between paper and solid black that any print in usable light reaches. */
const MIN_CONTRAST = 2.5;

/** @returns the first reason against reading, or null */
export function judgeExposure(card: CardSamples): RefusalCode | null {
  const paper = [...card.paper, ...card.neutrals.filter((sample) => inkOf(sample.id) === 0)];
  const lightest = card.neutrals.filter((sample) => inkOf(sample.id) === LIGHTEST_INK);
  if (mean(lightest.map((sample) => sample.clipped)) > MAX_CLIPPED) return 'blown-out';
  const paperLevel = mean(paper.map((sample) => (sample.rgb[0] + sample.rgb[1] + sample.rgb[2]) / 3));
  if (paperLevel < DARKEST_PAPER) return 'too-dark';
  const blacks = card.neutrals.filter((sample) => inkOf(sample.id) === 1);
  const black = mean(blacks.map((sample) => decodeSrgb(sample.rgb[1])));
  const white = mean(paper.map((sample) => decodeSrgb(sample.rgb[1])));
  return white < MIN_CONTRAST * black ? 'blown-out' : null;
}

const INKS = new Map(NEUTRALS.map((neutral) => [neutral.id, neutral.ink]));

function inkOf(id: string): number | undefined {
  return INKS.get(id);
}
