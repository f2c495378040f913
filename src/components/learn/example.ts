/** The example pool of the explainers and what is in it; invented. */
import { volumeLitres } from '../../core/pool/volume.ts';

export const EXAMPLE_POOL = { diameterM: 5.5, waterDepthM: 1.2 } as const;

export function examplePoolLitres(): number {
  const { diameterM, waterDepthM } = EXAMPLE_POOL;
  return volumeLitres({
    outline: { shape: 'round', diameterM },
    floor: { floor: 'flat', depthM: waterDepthM },
    belowRimM: 0,
  });
}
