/** Smooth random fields for grain, mottling and uneven ground. */
import { randomFrom } from '../random.ts';

const SIZE = 256;
const MASK = SIZE - 1;

/** Smooth noise about 0, within -1 and 1, one bump per unit of length; repeats after 256 units. */
export type Noise = (x: number, y: number) => number;

/** Value noise on a lattice with smoothstep in between. */
export function makeNoise(seed: number): Noise {
  const random = randomFrom(seed);
  const lattice = Float32Array.from({ length: SIZE * SIZE }, () => 2 * random.next() - 1);
  return (x, y) => {
    const xi = Math.floor(x);
    const yi = Math.floor(y);
    const fx = x - xi;
    const fy = y - yi;
    const u = fx * fx * (3 - 2 * fx);
    const v = fy * fy * (3 - 2 * fy);
    const row = (yi & MASK) * SIZE;
    const next = ((yi + 1) & MASK) * SIZE;
    const left = xi & MASK;
    const right = (xi + 1) & MASK;
    const top = lattice[row + left]! + u * (lattice[row + right]! - lattice[row + left]!);
    const bottom = lattice[next + left]! + u * (lattice[next + right]! - lattice[next + left]!);
    return top + v * (bottom - top);
  };
}

/** Several octaves, each half as large and half as strong. */
export function layered(noise: Noise, octaves: number): Noise {
  return (x, y) => {
    let sum = 0;
    let strength = 0.5;
    let scale = 1;
    for (let i = 0; i < octaves; i++) {
      sum += strength * noise(x * scale + 17.3 * i, y * scale - 9.1 * i);
      strength *= 0.5;
      scale *= 2.03;
    }
    return sum;
  };
}
