/** What is being done, for the person waiting. */
import type { ReadStage } from '../../vision/messages.ts';

export type DeskStage = 'open-photo' | ReadStage;

export const STAGES: readonly { readonly id: DeskStage; readonly text: string }[] = [
  { id: 'open-photo', text: 'Opening the photo' },
  { id: 'take-pixels', text: 'Getting the reader ready' },
  { id: 'find-card', text: 'Finding the card' },
  { id: 'flatten', text: 'Laying it flat' },
  { id: 'find-strip', text: 'Finding the strip' },
  { id: 'read', text: 'Reading the pads' },
];
