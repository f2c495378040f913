import { describe, expect, it } from 'vitest';
import { Fourier } from '../../../src/vision/card/fourier.ts';
import { randomFrom } from '../pictures.ts';

describe('the Fourier transform', () => {
  // 64 halves to the end, 62 once, 31 never.
  it.each([64, 62, 48, 31])('of %i numbers is what its definition says', (n) => {
    const random = randomFrom(n);
    const numbers = () => Float64Array.from({ length: n }, () => random() - 0.5);
    const from = { re: numbers(), im: numbers() };
    const to = { re: new Float64Array(n), im: new Float64Array(n) };
    new Fourier(n).transform(from, to);
    for (let wave = 0; wave < n; wave++) {
      let [re, im] = [0, 0];
      for (let i = 0; i < n; i++) {
        const angle = (-2 * Math.PI * wave * i) / n;
        re += from.re[i]! * Math.cos(angle) - from.im[i]! * Math.sin(angle);
        im += from.re[i]! * Math.sin(angle) + from.im[i]! * Math.cos(angle);
      }
      expect(to.re[wave]).toBeCloseTo(re, 10);
      expect(to.im[wave]).toBeCloseTo(im, 10);
    }
  });
});
