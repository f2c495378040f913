/** What to draw beside the sentences about a photo: as it went wrong, and as it should be. */
import type { RefusalCode, WarningCode } from '../../core/reading/reading.ts';
import type { Sketch } from '../drawings/photo-sketch.ts';

export interface TroublePictures {
  readonly wrong: Sketch;
  /** What the two pictures show, for those who don't see them. */
  readonly wrongText: string;
  readonly right: Sketch;
  readonly rightText: string;
}

const GOOD: Pick<TroublePictures, 'right' | 'rightText'> = {
  right: {},
  rightText: 'The whole card, flat, in even light, with the strip in its slot.',
};

export const TROUBLES: Readonly<Record<RefusalCode | WarningCode, TroublePictures>> = {
  'not-an-image': { ...GOOD, wrong: { over: 'file' }, wrongText: 'A file that is no photo.' },
  'no-card': { ...GOOD, wrong: { card: 'none' }, wrongText: 'A table without a card.' },
  'card-cut-off': { ...GOOD, wrong: { card: 'cut' }, wrongText: 'A card of which a third lies outside the photo.' },
  'card-other-version': { ...GOOD, wrong: { card: 'other' }, wrongText: 'A card with other corner marks.' },
  'two-cards': { ...GOOD, wrong: { card: 'two' }, wrongText: 'Two cards lying side by side in one photo.' },
  'on-a-screen': { ...GOOD, wrong: { card: 'screen' }, wrongText: 'A card shown on a screen.' },
  'no-strip': { ...GOOD, wrong: { strip: 'none' }, wrongText: 'A card with an empty slot.' },
  'strip-mismatch': { ...GOOD, wrong: { strip: 'other' }, wrongText: 'A strip with more and narrower pads.' },
  'strip-face-down': {
    ...GOOD,
    wrong: { strip: 'back' },
    wrongText: 'A strip lying on its pads: only plastic can be seen.',
  },
  'pads-dry': { ...GOOD, wrong: { strip: 'dry' }, wrongText: 'A strip with pale, undipped pads.' },
  'perhaps-dry': { ...GOOD, wrong: { strip: 'dry' }, wrongText: 'A strip with pale pads.' },
  blurred: { ...GOOD, wrong: { over: 'blur' }, wrongText: 'A card with double, smeared edges.' },
  'too-dark': { ...GOOD, wrong: { over: 'dark' }, wrongText: 'A photo so dark that the card is hardly seen.' },
  'blown-out': { ...GOOD, wrong: { over: 'bright' }, wrongText: 'The sun’s glare over the card’s patches.' },
  'glare-over-pads': { ...GOOD, wrong: { over: 'glints' }, wrongText: 'Bright reflections on several pads.' },
  'deep-shadow': { ...GOOD, wrong: { over: 'shadow' }, wrongText: 'A deep shadow with a sharp edge across the strip.' },
  'two-lights': {
    ...GOOD,
    wrong: { over: 'two lights' },
    wrongText: 'Daylight from one side and a lamp from the other.',
  },
  'no-colour': { ...GOOD, wrong: { over: 'grey' }, wrongText: 'A black-and-white photo of the card.' },
  'black-only-card': { ...GOOD, wrong: { card: 'plain' }, wrongText: 'A card without colour patches.' },
  'uneven-light': {
    ...GOOD,
    wrong: { over: 'soft shadow' },
    wrongText: 'Light that falls off from one side of the card to the other.',
  },
  'shadow-edge': { ...GOOD, wrong: { over: 'shadow' }, wrongText: 'A shadow’s edge across the strip.' },
  'mixed-light': {
    ...GOOD,
    wrong: { over: 'two lights' },
    wrongText: 'Daylight from one side and a lamp from the other.',
  },
  'glare-on-pad': { ...GOOD, wrong: { over: 'glint' }, wrongText: 'A bright reflection on one pad.' },
  'pad-clipped': { ...GOOD, wrong: { over: 'bright' }, wrongText: 'Too much light on the card.' },
  'colour-filter': { ...GOOD, wrong: { over: 'filter' }, wrongText: 'A tint laid over the whole photo.' },
  'pad-unmatched': {
    ...GOOD,
    wrong: { strip: 'odd pad' },
    wrongText: 'One pad far darker than any block of the chart.',
  },
  'greys-not-neutral': { ...GOOD, wrong: { over: 'tinted greys' }, wrongText: 'Grey patches with a tint.' },
  'greys-mixed': { ...GOOD, wrong: { over: 'tinted greys' }, wrongText: 'Grey patches with a strong tint.' },
  'another-print': {
    ...GOOD,
    wrong: { card: 'two', strip: 'dipped' },
    wrongText: 'Two prints of the card: not the same one.',
  },
  'read-early': { ...GOOD, wrong: { over: 'early' }, wrongText: 'A clock before the reading window.' },
  'photos-disagree': {
    ...GOOD,
    wrong: { over: 'two lights' },
    wrongText: 'Photos of two different strips, read as one.',
  },
  'read-late': { ...GOOD, wrong: { over: 'late' }, wrongText: 'A clock past the reading window.' },
  'poor-fit': { ...GOOD, wrong: { over: 'stain' }, wrongText: 'A stain over some of the grey patches.' },
};
