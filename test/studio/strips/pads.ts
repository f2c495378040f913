/** Colours of pads: Kubelka-Munk over the two forms of a dye in a paper pad. */
import { sigmoid, spectrumOf, type Spectrum } from '../spectra/wavelengths.ts';
import type { Dye } from './indicators.ts';

/** P. Kubelka, F. Munk, Z. tech. Phys. 12:593, 1931: reflectance of an opaque layer from K/S. */
export function reflectanceOf(ks: Spectrum): Spectrum {
  return ks.map((q) => 1 + q - Math.sqrt(q * q + 2 * q));
}

/** K/S of an opaque layer of a reflectance. */
export function absorptionOf(reflectance: Spectrum): Spectrum {
  return reflectance.map((r) => (1 - r) ** 2 / (2 * r));
}

/** Dye in a pad: how much of it, and which share is in the second form. */
export interface Dyeing {
  readonly dye: Dye;
  /** K/S at the top of a band of height 1 when all of the dye is in that form. */
  readonly amount: number;
  readonly share: number;
}

/** Wet cellulose pad without dye; invented, a slightly yellow white. */
export const BARE_PAD: Spectrum = spectrumOf((nm) => 0.6 + 0.235 * sigmoid(nm, 398, 22));

/** White plastic of a strip: titanium white that stops reflecting towards the ultraviolet; invented. */
export const PLASTIC: Spectrum = spectrumOf((nm) => 0.3 + (0.592 - 0.00004 * (nm - 550)) * sigmoid(nm, 403, 6));

const BARE_ABSORPTION = absorptionOf(BARE_PAD);

/** @param strength factor on all dye, 1 as made; strips vary by a few per cent, and so do places of one pad */
export function padReflectance(dyeings: readonly Dyeing[], strength = 1): Spectrum {
  const ks = BARE_ABSORPTION.map((bare, i) =>
    dyeings.reduce(
      (sum, { dye, amount, share }) => sum + strength * amount * ((1 - share) * dye.first[i]! + share * dye.second[i]!),
      bare,
    ),
  );
  return reflectanceOf(ks);
}
