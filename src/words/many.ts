/** What is said where several photos are read, by the command and on the page. */
import { countText, plural } from './grammar.ts';
import { numberText } from './numbers.ts';

export const NO_PHOTOS = {
  code: 'no-photos',
  wrong: 'There is no photo in this folder.',
  remedy: 'Name a folder with photos saved as JPEG, PNG, WebP or AVIF.',
} as const;

export const READER_STOPPED = {
  code: 'reader-stopped',
  wrong: 'The reader stopped at this photo.',
  remedy: 'Try it once more by itself; the photos after it were read.',
} as const;

/** "120 of 1,000 photos, 3 refused, about 2 min left" */
export function progressText(done: number, total: number, refused: number, secondsLeft: number): string {
  const left = secondsLeft < 90 ? `${Math.ceil(secondsLeft)} s` : `${Math.round(secondsLeft / 60)} min`;
  return [
    `${numberText(done)} of ${countText(total, 'photo', 'photos')}`,
    ...(refused > 0 ? [`${numberText(refused)} refused`] : []),
    `about ${left} left`,
  ].join(', ');
}

export const REPORT = {
  title: 'What the strips say',
  caution:
    'For screening only: product labels, local rules and licensed professionals come first. Each value stands with the span that it likely lies in.',
  all: 'All values, with the span of each below it',
  photo: 'Photo',
  refused: 'Not read',
  card: (number: number) => `The flattened card of photo ${number}, with its pads numbered.`,
} as const;

/** "998 of 1,000 photos were read." */
export function reportCountText(photos: number, read: number): string {
  return `${numberText(read)} of ${countText(photos, 'photo', 'photos')} ${plural(photos, 'was', 'were')} read.`;
}

/** On the page: a row for each photo. */
export const ROWS = {
  title: (photos: number) => `What ${countText(photos, 'photo says', 'photos say')}`,
  reading: (number: number, photos: number) => `Reading photo ${numberText(number)} of ${numberText(photos)}.`,
  done: (unkept: number, refused: number, left: number) =>
    [
      unkept > 0
        ? `${countText(unkept, 'reading isn’t', 'readings aren’t')} in the logbook yet: leaving the page loses ${plural(unkept, 'it', 'them')}.`
        : '',
      refused > 0 ? `${countText(refused, 'photo', 'photos')} could not be read.` : '',
      left > 0 ? `${countText(left, 'photo was', 'photos were')} put away.` : '',
    ]
      .filter(Boolean)
      .join(' '),
  keepAll: (readings: number) => `Keep ${countText(readings, 'reading', 'readings')} in the logbook`,
  kept: (readings: number) => `${countText(readings, 'reading is', 'readings are')} in the logbook.`,
  join: 'Make one reading of them',
  joinHint: 'If they all show the same strip, one reading of them is a little surer than each.',
  joined: (photos: number) => `One reading of ${countText(photos, 'photo', 'photos')}`,
  stop: 'Stop reading',
  discard: 'Put these readings away',
  unnamed: 'A photo',
  open: 'Open its sheet',
  keep: 'Keep it',
  which: 'Say which card is meant',
  again: 'Read it',
  waiting: 'Waits to be read.',
  left: 'Not read, or put away.',
  isKept: 'In the logbook.',
  isJoined: 'Part of the one reading below.',
  log: 'Open the logbook',
} as const;
