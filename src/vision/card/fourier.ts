/** The discrete Fourier transform, halved as often as the length allows (Cooley & Tukey, Math. Comput. 19:297, 1965). */

interface Complex {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export class Fourier {
  readonly #length: number;
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;

  constructor(length: number) {
    this.#length = length;
    this.#cos = Float64Array.from({ length }, (_, i) => Math.cos((2 * Math.PI * i) / length));
    this.#sin = Float64Array.from({ length }, (_, i) => -Math.sin((2 * Math.PI * i) / length));
  }

  /** @param from as many numbers as the length @param to takes the waves, from 0 on */
  transform(from: Complex, to: Complex): void {
    this.#part(from, 0, 1, to, 0);
  }

  /** Every `stride`th number from `first` on, to a stretch that begins at `at`. */
  #part(from: Complex, first: number, stride: number, to: Complex, at: number): void {
    const n = this.#length / stride;
    if (n % 2 === 1) return this.#plain(from, first, stride, to, at);
    const half = n / 2;
    this.#part(from, first, 2 * stride, to, at);
    this.#part(from, first + stride, 2 * stride, to, at + half);
    const { re, im } = to;
    for (let low = at, turn = 0; low < at + half; low++, turn += stride) {
      const c = this.#cos[turn]!;
      const s = this.#sin[turn]!;
      const high = low + half;
      const oddRe = re[high]! * c - im[high]! * s;
      const oddIm = re[high]! * s + im[high]! * c;
      re[high] = re[low]! - oddRe;
      im[high] = im[low]! - oddIm;
      re[low]! += oddRe;
      im[low]! += oddIm;
    }
  }

  /** By its definition. */
  #plain(from: Complex, first: number, stride: number, to: Complex, at: number): void {
    const n = this.#length / stride;
    for (let wave = 0; wave < n; wave++) {
      let [re, im] = [0, 0];
      for (let i = 0; i < n; i++) {
        const turn = ((i * wave) % n) * stride;
        const [c, s] = [this.#cos[turn]!, this.#sin[turn]!];
        const here = first + i * stride;
        re += from.re[here]! * c - from.im[here]! * s;
        im += from.re[here]! * s + from.im[here]! * c;
      }
      to.re[at + wave] = re;
      to.im[at + wave] = im;
    }
  }
}
