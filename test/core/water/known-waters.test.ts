import { describe, expect, it } from 'vitest';
import { alkalinityMade, hardnessMade, sodaPh } from '../../../src/core/water/known-waters.ts';

/* IUPAC abridged standard atomic weights (2021), written out again here. */
const [H, C, O, NA, CL, CA] = [1.008, 12.011, 15.999, 22.99, 35.45, 40.078];
const CACO3 = CA + C + 3 * O;

describe('water of known alkalinity and hardness', () => {
  it('holds what the weights of its atoms say', () => {
    // 10 g in a litre, 20 mL of it in another: 0.2 g of baking soda, each mole of it half a mole of CaCO3.
    expect(alkalinityMade(20)).toBeCloseTo(((0.2 / (NA + H + C + 3 * O)) * 1000 * CACO3) / 2, 1);
    expect(hardnessMade(20, 'anhydrous')).toBeCloseTo((0.2 / (CA + 2 * CL)) * 1000 * CACO3, 1);
    expect(hardnessMade(20, 'dihydrate')).toBeCloseTo((0.2 / (CA + 2 * CL + 2 * (2 * H + O))) * 1000 * CACO3, 1);
  });

  it('is distilled water where nothing is added', () => {
    expect([alkalinityMade(0), hardnessMade(0, 'dihydrate')]).toEqual([0, 0]);
  });
});

describe('baking soda in distilled water', () => {
  /* Plummer & Busenberg 1982 at 25 °C: pK1 6.352, pK2 10.329, CO2 10^-1.468 mol/L at 1 atm. Davies at ionic strength I. */
  const logGamma = (ionic: number) => -0.509 * (Math.sqrt(ionic) / (1 + Math.sqrt(ionic)) - 0.3 * ionic);

  it('stands half way between the two constants of carbonic acid when just dissolved', () => {
    for (const alkalinity of [120, 240]) {
      const molar = alkalinity / (CACO3 / 2) / 1000;
      // The ampholyte's approximation; water's own ions lower it by a few hundredths at such strengths.
      const byHand = (6.352 + 10.329) / 2 + logGamma(molar);
      expect(Math.abs(sodaPh(alkalinity) - byHand)).toBeLessThan(0.08);
      expect(sodaPh(alkalinity)).toBeGreaterThan(8.2);
      expect(sodaPh(alkalinity)).toBeLessThan(8.35);
    }
  });

  it('comes into balance with air as the constants say', () => {
    for (const pressure of [4.2e-4, 1e-3]) {
      const molar = 120 / (CACO3 / 2) / 1000;
      const carbonDioxide = 10 ** -1.468 * pressure;
      // Bicarbonate first, then less what is carbonate at that pH.
      let bicarbonate = molar;
      let ph = 0;
      for (let i = 0; i < 20; i++) {
        ph = 6.352 + Math.log10(bicarbonate / carbonDioxide) + logGamma(molar);
        bicarbonate = molar / (1 + 2 * 10 ** (ph - 10.329 - 3 * logGamma(molar)));
      }
      expect(Math.abs(sodaPh(120, pressure) - ph)).toBeLessThan(0.03);
    }
  });
});
