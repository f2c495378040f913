/** Activity coefficients: Davies' equation, with the Debye-Hückel slope for the water's temperature. */

/**
 * Relative permittivity of water; the fit used in WATEQ4F and PHREEQC (read in public code), 0-100 °C.
 * @param kelvin temperature
 */
function permittivity(kelvin: number): number {
  return 2727.586 + 0.6224107 * kelvin - 466.9151 * Math.log(kelvin) - 52000.87 / kelvin;
}

/** A of the Debye-Hückel law for decadic logarithms, (L/mol)^½; 0.509 at 25 °C. */
export function debyeHuckelSlope(kelvin: number): number {
  return 1.82e6 * (permittivity(kelvin) * kelvin) ** -1.5;
}

/**
 * log γ of an ion of charge 1; multiply by z² for charge z. Neutral species have γ = 1.
 * Davies 1962, the form in Standard Methods 2330 (citation from memory); good to about I = 0.5 mol/L.
 * @param slope from `debyeHuckelSlope`
 * @param ionicStrength mol/L
 */
export function daviesLogGamma(slope: number, ionicStrength: number): number {
  const root = Math.sqrt(ionicStrength);
  return -slope * (root / (1 + root) - 0.3 * ionicStrength);
}
