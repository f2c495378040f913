/** What the live camera says. */
import type { CameraFailure } from '../core/capture/failure.ts';
import { listText, plural } from './grammar.ts';
import type { HintCode } from '../core/capture/hints.ts';

const FAILURES: Record<CameraFailure, string> = {
  insecure: 'The live camera needs a secure address (https), which this page does not have here.',
  unsupported: 'This browser cannot show the camera inside a page.',
  'no-camera': 'No camera was found on this device.',
  denied: 'The camera was not allowed; the browser’s settings for this site can allow it again.',
  busy: 'The camera could not be started, perhaps because another app is using it.',
};

export function failureText(failure: CameraFailure): string {
  return FAILURES[failure];
}

export const ENDED = {
  hidden: 'The camera was switched off while the page was out of sight.',
  lost: 'The camera was taken away from the page.',
  closed: 'The camera is off.',
} as const;

const HINTS: Record<Exclude<HintCode, 'glare'>, string> = {
  'find-card': 'Point the camera at the card.',
  'whole-card': 'Farther: the whole card belongs in the picture.',
  nearer: 'Nearer: let the card fill the picture.',
  flatter: 'Flatter: hold the phone level, right above the card.',
  'more-light': 'More light: go into open shade by day.',
  'less-light': 'Too bright: take the card out of the sun, into open shade.',
  'lay-strip': 'Lay the strip in the grey slot, pads up.',
  'check-strip': 'These pads don’t fit the chosen scale: is it the right strip, pads up?',
  'hold-still': 'Hold still.',
};

/** @param glarePads positions of the pads that mirror a light */
export function hintText(hint: HintCode, glarePads: readonly number[]): string {
  if (hint !== 'glare') return HINTS[hint];
  const numbers = listText(glarePads.map((pad) => String(pad + 1)));
  return `Glare on ${plural(glarePads.length, 'pad', 'pads')} ${numbers}: turn the card, or shade it from above.`;
}

export const STARTING = 'Starting the camera.';
export const TAKING = 'Taking the photo. Keep still.';
export const GOOD_WAIT = 'Good. Keep it there: the photo takes itself when the window opens.';
export const GOOD_DIP = 'Good. The photo takes itself once the timer says so.';
export const GOOD_PAST = 'The window is past. Press the button if you want a photo all the same.';
