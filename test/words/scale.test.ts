import { describe, expect, it } from 'vitest';
import { chartConcernText, scaleConcernText } from '../../src/words/scale.ts';
import { plainScale } from '../core/scale/fixtures.ts';

describe('what is said of a scale', () => {
  it.each([
    [{ code: 'hardly-changes-above', pad: 1, from: 5, deltaE: 1 }, /^Free chlorine: above 5 .*“5 or more”/],
    [{ code: 'steps-too-small', pad: 0, from: 6.8, to: 7.2, deltaE: 1 }, /^pH: 6\.8 and 7\.2 look almost alike/],
    [{ code: 'fold', pad: 0, one: 6.2049, other: 8.1951, deltaE: 1 }, /^pH: the colours at about 6\.2 and 8\.2 /],
    [{ code: 'fold', pad: 1, one: 0.1234, other: 123.4, deltaE: 1 }, /at about 0\.12 and 123 /],
    [{ code: 'photos-disagree', pad: 1, value: 3, deltaE: 9 }, /^Free chlorine: the block 3 looks different/],
  ] as const)('%j', (concern, sentence) => {
    expect(scaleConcernText(plainScale(), concern)).toMatch(sentence);
  });
});

describe('what is said of a chart’s photo', () => {
  it.each([
    [{ code: 'far', mm: 51.6 }, /^The chart lies 52 mm or more from the card/],
    [{ code: 'uneven', steps: 9 }, /^The light changes over the chart/],
    [{ code: 'glare', blocks: [3] }, /^One block mirrors the light/],
    [{ code: 'glare', blocks: [3, 5] }, /^2 blocks mirror the light/],
    [{ code: 'other-light', kind: 'tinted' }, /tinted/],
    [{ code: 'other-light', kind: 'darker' }, /darker/],
    [{ code: 'other-light', kind: 'brighter' }, /more brightly/],
  ] as const)('%j', (concern, sentence) => {
    expect(chartConcernText(concern)).toMatch(sentence);
  });
});
