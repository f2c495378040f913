/** What to draw beside the sentences about a photo: what went wrong, and once as it should be. */
import type { RefusalCode, WarningCode } from '../../core/reading/reading.ts';
import type { Sketch } from '../drawings/photo-sketch.ts';

export interface Trouble {
  readonly sketch: Sketch;
  /** What it shows, for those who don't see it. */
  readonly text: string;
}

/** How a photo should be. */
export const RIGHT: Trouble = {
  sketch: {},
  text: 'The whole card, flat, in even light, with the strip in its slot.',
};

export const TROUBLES: Readonly<Record<RefusalCode | WarningCode, Trouble>> = {
  'not-an-image': { sketch: { over: 'file' }, text: 'A file that is no photo.' },
  'no-card': { sketch: { card: 'none' }, text: 'A table without a card.' },
  'card-cut-off': { sketch: { card: 'cut' }, text: 'A card of which a third lies outside the photo.' },
  'card-other-version': { sketch: { card: 'other' }, text: 'A card with other corner marks.' },
  'two-cards': { sketch: { card: 'two' }, text: 'Two cards lying side by side in one photo.' },
  'on-a-screen': { sketch: { card: 'screen' }, text: 'A card shown on a screen.' },
  'no-strip': { sketch: { strip: 'none' }, text: 'A card with an empty slot.' },
  'strip-mismatch': { sketch: { strip: 'other' }, text: 'A strip with more and narrower pads.' },
  'strip-face-down': {
    sketch: { strip: 'back' },
    text: 'A strip lying on its pads: only plastic can be seen.',
  },
  'pads-dry': { sketch: { strip: 'dry' }, text: 'A strip with pale, undipped pads.' },
  'perhaps-dry': { sketch: { strip: 'dry' }, text: 'A strip with pale pads.' },
  blurred: { sketch: { over: 'blur' }, text: 'A card with double, smeared edges.' },
  'too-dark': { sketch: { over: 'dark' }, text: 'A photo so dark that the card is hardly seen.' },
  'blown-out': { sketch: { over: 'bright' }, text: 'The sun’s glare over the card’s patches.' },
  'glare-over-pads': { sketch: { over: 'glints' }, text: 'Bright reflections on several pads.' },
  'deep-shadow': { sketch: { over: 'shadow' }, text: 'A deep shadow with a sharp edge across the strip.' },
  'two-lights': {
    sketch: { over: 'two lights' },
    text: 'Daylight from one side and a lamp from the other.',
  },
  'no-colour': { sketch: { over: 'grey' }, text: 'A black-and-white photo of the card.' },
  'black-only-card': { sketch: { card: 'plain' }, text: 'A card without colour patches.' },
  'uneven-light': {
    sketch: { over: 'soft shadow' },
    text: 'Light that falls off from one side of the card to the other.',
  },
  'shadow-edge': { sketch: { over: 'shadow' }, text: 'A shadow’s edge across the strip.' },
  'mixed-light': {
    sketch: { over: 'two lights' },
    text: 'Daylight from one side and a lamp from the other.',
  },
  'glare-on-pad': { sketch: { over: 'glint' }, text: 'A bright reflection on one pad.' },
  'pad-clipped': { sketch: { over: 'bright' }, text: 'Too much light on the card.' },
  'colour-filter': { sketch: { over: 'filter' }, text: 'A tint laid over the whole photo.' },
  'pad-unmatched': {
    sketch: { strip: 'odd pad' },
    text: 'One pad far darker than any block of the chart.',
  },
  'greys-not-neutral': { sketch: { over: 'tinted greys' }, text: 'Grey patches with a tint.' },
  'greys-mixed': { sketch: { over: 'tinted greys' }, text: 'Grey patches with a strong tint.' },
  'another-print': {
    sketch: { card: 'two', strip: 'dipped' },
    text: 'Two prints of the card: not the same one.',
  },
  'read-early': { sketch: { over: 'early' }, text: 'A clock before the reading window.' },
  'photos-disagree': {
    sketch: { over: 'two lights' },
    text: 'Photos of two different strips, read as one.',
  },
  'read-late': { sketch: { over: 'late' }, text: 'A clock past the reading window.' },
  'poor-fit': { sketch: { over: 'stain' }, text: 'A stain over some of the grey patches.' },
};
