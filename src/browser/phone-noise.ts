/** What the check of this phone found, for the readings after it. */
import { remember, remembered } from './remembered.ts';

const KEY = 'phone-noise';

/** CIEDE2000, beyond what readings count with anyway; 0 where the phone wasn't checked. */
export function phoneNoise(): number {
  const kept = Number(remembered(KEY));
  return Number.isFinite(kept) && kept > 0 ? kept : 0;
}

export function keepPhoneNoise(sigma: number): void {
  remember(KEY, sigma.toFixed(2));
}
