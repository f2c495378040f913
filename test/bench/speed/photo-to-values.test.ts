import { expect, it } from 'vitest';
import { lengths } from './photo-to-values.ts';

it('tells how long stages took from when they began, the page before and after the worker included', () => {
  const stages = [
    { stage: 'take-pixels', millis: 100 },
    { stage: 'find-card', millis: 130 },
  ];
  const taken = lengths({ outcome: 'read', sentence: '', pads: [], millis: 240, valuesMillis: 200, stages });
  expect(taken.map(({ stage, millis }) => [stage, millis])).toEqual([
    ['open', 100],
    ['take-pixels', 30],
    ['find-card', 70],
    ['sheet', 40],
  ]);
});
