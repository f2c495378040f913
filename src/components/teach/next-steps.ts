/** What comes after the chart, and knows the scales that are kept: fetched once somebody has begun. */
export { keptScales } from '../../browser/scales.ts';
export { addLight, buildScale } from './build-scale.ts';
export { CheckStep } from './check-step.ts';
export { StripStep } from './strip-step.ts';
