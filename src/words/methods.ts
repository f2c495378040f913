/** How the ways of measuring are called. */
import type { Method, TypedMethod } from '../core/measurement/methods.ts';

/** In a list to choose from. */
export const METHOD_CHOICES: Readonly<Record<TypedMethod, string>> = {
  unsaid: 'not said',
  drops: 'a drop or tube kit',
  meter: 'a meter',
  eye: 'this strip by eye',
  'other-strip': 'another strip by eye',
};

/** Behind a value. */
export const METHOD_WORDS: Readonly<Record<Method, string>> = {
  photo: 'by photo',
  unsaid: 'by hand',
  drops: 'by a drop kit',
  meter: 'by a meter',
  eye: 'by eye',
  'other-strip': 'by another strip',
};

/** Of a strip read with an invented scale. */
export const PRACTICE_NOTE =
  'Read with a practice scale, which is invented and matches no product: the values say nothing about real water.';
export const PRACTICE_PLAN = 'So this plan is for practice: add nothing by it, and it isn’t kept in the logbook.';
