/** Where a reading and a word about it are explained; addresses for `href`. */
import type { PadQuantity } from '../core/measurement/quantities.ts';
import type { Word } from '../core/reading/reading.ts';

const SECTIONS: Readonly<Record<Word, string>> = {
  low: '#when-it-is-low-when-it-is-high',
  high: '#when-it-is-low-when-it-is-high',
  'in-range': '#the-usual-range-and-whose-range-it-is',
  'off-scale': '#off-the-scale',
  unmatched: '#cannot-tell',
};

/** The page of a reading, or of what the strip can't say about it. */
export function learnPath(parameter: PadQuantity, word?: Word): string {
  if (word === undefined) return `learn/${parameter}/`;
  const page = word === 'off-scale' || word === 'unmatched' ? 'how-a-photo-is-read' : parameter;
  return `learn/${page}/${SECTIONS[word]}`;
}
