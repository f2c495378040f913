/** The sentences for files that can't be opened. */
import type { ReasonMessage } from '../core/reading/messages.ts';
import type { DecodeFailure } from './decode.ts';

const MESSAGES: Record<DecodeFailure, ReasonMessage> = {
  empty: {
    wrong: 'This file is empty.',
    remedy: 'It may not have finished copying. Choose the photo again, or take a new one.',
  },
  'too-heavy': {
    wrong: 'This file is larger than 60 MB.',
    remedy: 'Choose an ordinary photo, as the phone saves it.',
  },
  heic: {
    wrong: 'This photo is saved as HEIC, which this browser cannot open.',
    remedy: 'Set the phone’s camera to save JPEG, or export the photo as JPEG, and choose that.',
  },
  vector: {
    wrong: 'This file is a drawing, not a photo.',
    remedy: 'Choose a photo saved as JPEG, PNG, WebP or AVIF.',
  },
  'not-an-image': {
    wrong: 'This file could not be opened as a picture.',
    remedy: 'Choose a photo saved as JPEG, PNG, WebP or AVIF.',
  },
  'too-many-pixels': {
    wrong: 'This picture has more than 60 million pixels.',
    remedy: 'Choose an ordinary photo, as the phone saves it.',
  },
  'too-small': {
    wrong: 'This picture is too small to read colours from.',
    remedy: 'Choose the photo in its full size, not a thumbnail or a copy from a message.',
  },
};

export function decodeMessage(failure: DecodeFailure): ReasonMessage {
  return MESSAGES[failure];
}
