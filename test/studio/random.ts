/** Seeded randomness, so that every scene can be had again. */

export interface Random {
  /** 0 up to 1. */
  next(): number;
  between(low: number, high: number): number;
  /** Standard normal. */
  normal(): number;
  /** Normal about a middle, never further off than two and a half standard deviations. */
  about(middle: number, sigma: number): number;
  pick<T>(from: readonly T[]): T;
  chance(probability: number): boolean;
  /** A generator of its own for a named part, so that parts don't disturb one another. */
  fork(name: string): Random;
}

/** mulberry32 (T. Ettinger, public domain). */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    normal,
    about: (middle, sigma) => middle + sigma * Math.max(-2.5, Math.min(2.5, normal())),
    pick: (from) => from[Math.floor(next() * from.length)]!,
    chance: (probability) => next() < probability,
    fork: (name) => randomFrom(hashText(name, seed)),
  };
}

/** FNV-1a over the text, started from a seed. */
export function hashText(text: string, seed: number): number {
  let hash = (2166136261 ^ Math.imul(seed, 2654435761)) >>> 0;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 16777619) >>> 0;
  return hash;
}
