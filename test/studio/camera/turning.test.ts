/** What is turned and what is left alone; how large it is, `npm run real` shows beside real photos. */
import { describe, expect, it } from 'vitest';
import { labToLinear, linearToLab } from '../../../src/core/colour/lab.ts';
import { randomFrom } from '../random.ts';
import { both, photoTurning, phoneTurning, scaled, turned, type Turning } from './turning.ts';

const NOTHING: Turning = { vividness: [0, 0, 0, 0], hue: [0, 0, 0, 0], lightness: [0, 0, 0, 0] };
const RED = labToLinear([50, 40, 0]);

describe('a phone’s turning of hues', () => {
  // Lab by culori, whose white is D65 to more digits: within a tenth.
  it('turns, strengthens and lightens by the hue', () => {
    const [l, a, b] = linearToLab(turned(RED, { ...NOTHING, hue: [0.1, 0, 0, 0] }));
    expect(l).toBeCloseTo(50, 1);
    expect(Math.atan2(b, a)).toBeCloseTo(0.1, 2);
    expect(Math.hypot(a, b)).toBeCloseTo(40, 0);
    const vivid = linearToLab(turned(RED, { ...NOTHING, vividness: [0, 0, 0.2, 0] }));
    expect(vivid[1]).toBeCloseTo(40 * Math.exp(0.2), 0);
    expect(linearToLab(turned(RED, { ...NOTHING, lightness: [0.05, 0, 0, 0] }))[0]).toBeCloseTo(52, 1);
  });

  it('leaves greys and what it doesn’t turn as they are', () => {
    const turning = both(phoneTurning(randomFrom(1)), photoTurning(randomFrom(2)));
    turned([0.4, 0.4, 0.4], turning).forEach((value) => expect(value).toBeCloseTo(0.4, 3));
    turned(RED, NOTHING).forEach((value, c) => expect(value).toBeCloseTo(RED[c]!, 6));
    turned(RED, scaled(turning, 0)).forEach((value, c) => expect(value).toBeCloseTo(RED[c]!, 6));
  });
});
