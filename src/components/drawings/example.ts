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

/** Readings of the example water, mg/L (alkalinity and hardness as CaCO3). */
export const EXAMPLE_WATER = {
  ph: 7.5,
  totalAlkalinity: 80,
  calciumHardness: 250,
  temperatureC: 26,
  salt: 3000,
  cyanuricAcid: 30,
} as const;
