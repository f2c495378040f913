/**
 * CIELAB with its chroma compressed as CIE94 weighs it (S_C = 1 + 0.045 C; CIE 116-1995): plain distances are about
 * CIEDE2000 at any chroma, so that one standard deviation fits strong colours and pale ones.
 */
import { linearToLab, type Triple } from './lab.ts';

const RATE = 0.045;

export function compress([l, a, b]: Triple): Triple {
  const chroma = Math.hypot(a, b);
  const share = chroma > 1e-9 ? Math.log1p(RATE * chroma) / (RATE * chroma) : 1;
  return [l, a * share, b * share];
}

export function expand([l, a, b]: Triple): Triple {
  const chroma = Math.hypot(a, b);
  const share = chroma > 1e-9 ? Math.expm1(RATE * chroma) / (RATE * chroma) : 1;
  return [l, a * share, b * share];
}

export function linearToCompressed(linear: Triple): Triple {
  return compress(linearToLab(linear));
}
