/** What a scale of the visitor's own needs to be shown and edited. Loaded where there is one. */
export { concernsOf } from '../scale/concerns-of.ts';
export { editForm } from './edit-form.ts';
export { scaleEntry } from './scale-entry.ts';
export { withoutLearnt } from '../../core/scale/learn.ts';
