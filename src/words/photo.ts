/** The sentences for files that can't be opened, shared by the page and the command. */
import type { ReasonMessage } from './reading.ts';
import type { PhotoFailure } from '../core/photo/failure.ts';

const AS_SAVED = 'Choose the photo as the phone saved it, or take a new one.';

const MESSAGES: Record<PhotoFailure, ReasonMessage> = {
  unreadable: {
    wrong: 'This file could not be read.',
    remedy: 'Check that it is still where it was, and choose it again.',
  },
  empty: {
    wrong: 'This file is empty.',
    remedy: 'It may not have finished copying. Choose the photo again, or take a new one.',
  },
  'too-heavy': {
    wrong: 'This file is larger than 200 MB.',
    remedy: 'Choose an ordinary photo, as the phone saves it.',
  },
  'not-an-image': {
    wrong: 'This file could not be opened as a picture.',
    remedy: 'Choose a photo saved as JPEG, PNG, WebP or AVIF.',
  },
  'other-kind': {
    wrong: 'This kind of file is not read here, though it may hold a picture.',
    remedy: 'Save the photo as JPEG, PNG, WebP or AVIF and choose that.',
  },
  vector: {
    wrong: 'This file is a drawing, not a photo.',
    remedy: 'Choose a photo saved as JPEG, PNG, WebP or AVIF.',
  },
  heic: {
    wrong: 'This photo is saved as HEIC, which this browser cannot open.',
    remedy: 'Set the phone’s camera to save JPEG, or export the photo as JPEG, and choose that.',
  },
  avif: {
    wrong: 'This AVIF photo could not be opened: it is damaged, or this browser does not know its kind.',
    remedy: 'Export the photo as JPEG and choose that.',
  },
  damaged: {
    wrong: 'This photo is damaged, or part of it is missing.',
    remedy: 'It may not have finished copying. Choose the photo again, or take a new one.',
  },
  'too-many-pixels': {
    wrong: 'This picture has more than 60 million pixels.',
    remedy: 'Choose an ordinary photo, as the phone saves it.',
  },
  'too-long': {
    wrong: 'This picture is more than 16,384 pixels long, as panoramas are.',
    remedy: 'Take an ordinary photo of the card and choose that.',
  },
  'too-small': {
    wrong: 'This picture is too small to read colours from.',
    remedy: 'Choose the photo in its full size, not a thumbnail or a copy from a message.',
  },
  'no-colour': {
    wrong: 'This picture is saved in black and white.',
    remedy: 'Take the photo in colour, without a filter.',
  },
  'few-colours': {
    wrong: 'This picture was saved with at most 256 colours, which shifts the colours of the pads.',
    remedy: AS_SAVED,
  },
  'printing-inks': {
    wrong: 'This picture is saved in printing inks (CMYK), which change its colours.',
    remedy: AS_SAVED,
  },
  'high-dynamic-range': {
    wrong: 'This picture is saved for high-dynamic-range screens, which changes its colours.',
    remedy: 'Switch HDR off in the camera’s settings and take the photo again, or export it as an ordinary JPEG.',
  },
  'too-slow': {
    wrong: 'This photo takes too long to open on this device.',
    remedy: 'Set the camera to a smaller size, 12 megapixels say, and take the photo again.',
  },
};

export function photoMessage(failure: PhotoFailure): ReasonMessage {
  return MESSAGES[failure];
}

/** All of them, for the page that lists every reason. */
export function photoMessages(): ReasonMessage[] {
  return Object.values(MESSAGES);
}

export const READER_STOPPED: ReasonMessage = {
  wrong: 'The reader stopped before it was done.',
  remedy: 'Try the photo again; if it happens once more, reload the page.',
};

export const SAMPLE_FAILED: ReasonMessage = {
  wrong: 'The practice photo could not be fetched.',
  remedy: 'Check the connection and try again.',
};
