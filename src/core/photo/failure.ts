/** Why a file can't be opened as a photo; worded in `src/words/photo.ts`. */
export const PHOTO_FAILURES = [
  'unreadable',
  'empty',
  'too-heavy',
  'not-an-image',
  'other-kind',
  'vector',
  'heic',
  'avif',
  'damaged',
  'too-many-pixels',
  'too-long',
  'too-small',
  'no-colour',
  'few-colours',
  'printing-inks',
  'high-dynamic-range',
  'too-slow',
] as const;

export type PhotoFailure = (typeof PHOTO_FAILURES)[number];
