/**
 * What the water does to the dye of a pad: the share of the dye in its second form (base, metal-bound,
 * oxidised), 0 to 1, for a concentration in the water.
 *
 * The acid-base, binding and mass balances are textbook; the amounts soaked into the pads are invented.
 */

/** Henderson-Hasselbalch. */
export function baseShare(pH: number, pKa: number): number {
  return 1 / (1 + 10 ** (pKa - pH));
}

/** One equivalent of alkalinity in mg of CaCO3. */
const MG_CACO3_PER_MMOL_CHARGE = 50.04;

/**
 * pH of a pad soaked with a weak acid, after the water's alkalinity has taken up part of it.
 * The carbon dioxide set free escapes from the thin film.
 * @param acidMmolL the acid soaked in, per litre of the water the pad takes up
 * @param takenMmolL how much of it the maker has already neutralised
 */
export function alkalinityPadPh(
  alkalinityMgL: number,
  acid: { pKa: number; acidMmolL: number; takenMmolL: number },
): number {
  const wanted = acid.takenMmolL + alkalinityMgL / MG_CACO3_PER_MMOL_CHARGE;
  const charge = (pH: number) => acid.acidMmolL * baseShare(pH, acid.pKa) - 1000 * 10 ** -pH + bicarbonateLeft(pH);
  return bisect(charge, wanted, 1, 10);
}

/** The alkalinity that stays alkalinity: bicarbonate in balance with a film of 0.3 mmol/L carbon dioxide (pK 6.35). */
function bicarbonateLeft(pH: number): number {
  return 0.3 * 10 ** (pH - 6.35);
}

/**
 * pH of a pad soaked with a weak organic base, after cyanuric acid (pKa 6.88, J. E. O'Brien, 1974) has been
 * added. Invented pad: real cyanuric acid pads differ and also feel the pH and alkalinity of the water, which
 * this one's buffer is taken to swamp.
 */
export function cyanuricPadPh(
  cyanuricMgL: number,
  base: { pKa: number; baseMmolL: number; acidifiedMmolL: number },
): number {
  const acidMmolL = cyanuricMgL / 129.07;
  const surplus = (pH: number) =>
    acidMmolL * baseShare(pH, 6.88) - base.baseMmolL * (1 - baseShare(pH, base.pKa)) - 1000 * 10 ** -pH;
  return bisect(surplus, -base.acidifiedMmolL, 3, 10);
}

/**
 * Share of a metallochromic dye that carries metal: a chelator in the pad takes the first of the hardness,
 * the dye competes for the rest (mass action; the dye itself uses up next to nothing).
 */
export function metalShare(hardnessMgL: number, pad: { chelatedMgL: number; halfMgL: number }): number {
  const free = freeMetal(hardnessMgL, pad.chelatedMgL, 0.12 * pad.halfMgL);
  return free / (free + pad.halfMgL);
}

/** Metal left over by a 1:1 chelator with the given dissociation constant, all in mg/L of CaCO3. */
function freeMetal(total: number, chelator: number, dissociation: number): number {
  const b = dissociation + chelator - total;
  return (-b + Math.sqrt(b * b + 4 * dissociation * total)) / 2;
}

/**
 * Share of an amine dye oxidised by chlorine. Paper and binder use up the first of it; the less dye is left, the
 * more chlorine passes it by.
 */
export function oxidisedShare(chlorineMgL: number, pad: { halfMgL: number; lostMgL: number }): number {
  const left = chlorineMgL - pad.lostMgL * (1 - Math.exp(-chlorineMgL / pad.lostMgL));
  return 1 - 2 ** (-left / pad.halfMgL);
}

/** Finds x where a rising function takes the wanted value. */
function bisect(rising: (x: number) => number, wanted: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
