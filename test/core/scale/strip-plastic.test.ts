/** Which samples a strip's plastic is taken from, on a card as a perfect camera would see it. */
import { describe, expect, it } from 'vitest';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import type { PatchSample } from '../../../src/core/samples.ts';
import { stripBaseOf, withStripBase } from '../../../src/core/scale/strip-base.ts';
import { teachingOf } from '../../../src/core/scale/teach.ts';
import { encoded, evenCard, patch } from '../reading/samples.ts';
import { plainScale } from './fixtures.ts';

type Lab = readonly [number, number, number];

const card = evenCard();
const teaching = () => teachingOf({ light: '', card, blocks: [] }, fitNeutrals(card).print);
const spots = (...labs: readonly Lab[]) => labs.map((lab, i) => patch(`b${i}`, encoded(lab)));
const found = (base: readonly PatchSample[]) => stripBaseOf({ card, base }, teaching());

function close(lab: readonly number[] | null, expected: Lab) {
  expect(lab).not.toBeNull();
  lab!.forEach((value, i) => expect(Math.abs(value - expected[i]!)).toBeLessThan(0.8));
}

describe('the colour of bare plastic', () => {
  it('is the middle of what was sampled, channel by channel, in hundredths', () => {
    const lab = found(spots([95, 0, 2], [60, 0, 0], [92, 1, 3]));
    close(lab, [92, 1, 3]);
    for (const value of lab!) expect(String(value)).toMatch(/^-?\d+(\.\d{1,2})?$/);
  });

  it('leaves out what is clipped over a tenth or more', () => {
    const clipped = (share: number) =>
      spots([95, 0, 2], [80, 0, 0], [80, 0, 0]).map((one, i) => (i > 0 ? { ...one, clipped: share } : one));
    close(found(clipped(0.1)), [95, 0, 2]);
    close(found(clipped(0.09)), [80, 0, 0]);
    expect(found(spots([95, 0, 2]).map((one) => ({ ...one, clipped: 0.5 })))).toBeNull();
  });

  it('is white, or was taken from something else', () => {
    close(found(spots([72, 0, 0])), [72, 0, 0]);
    expect(found(spots([68, 0, 0]))).toBeNull();
    // 8.4 and 11.2 make 14; 9.6 and 12.8 make 16.
    close(found(spots([85, 8.4, 11.2])), [85, 8.4, 11.2]);
    expect(found(spots([85, 9.6, 12.8]))).toBeNull();
  });

  it('becomes the scale’s, where there is a photo that taught it and the colour is clear', () => {
    const [pad] = plainScale().pads;
    const scale = { ...plainScale(), pads: [pad!], teachings: [teaching()] };
    const after = withStripBase(scale, { card, base: spots([93, 0, 2]) });
    close(after.strip.base ?? null, [93, 0, 2]);
    expect({ ...after, strip: scale.strip }).toEqual(scale);
    expect(after.strip).toMatchObject(scale.strip);
    expect(withStripBase(scale, { card, base: [] })).toEqual(scale);
    expect(withStripBase(plainScale(), { card, base: spots([93, 0, 2]) })).toEqual(plainScale());
  });
});
