/** The invented strips: where their pads are, what is in them, and what their charts print. */
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import { alkalinityPadPh, baseShare, cyanuricPadPh, metalShare, oxidisedShare } from './chemistry.ts';
import { BROMOCRESOL_GREEN, BROMOTHYMOL_BLUE, CALMAGITE, DPD, PHENOL_RED, SYRINGALDAZINE } from './indicators.ts';
import { padReflectance, type Dyeing } from './pads.ts';

export interface StudioPad {
  readonly parameter: PadQuantity;
  readonly unit: 'mg/L' | 'pH';
  readonly centreMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Values printed on the strip's chart. */
  readonly values: readonly number[];
  readonly dyeings: (value: number) => readonly Dyeing[];
  /** Share of its dye in the second form before it is dipped. */
  readonly dryShare: number;
}

export interface StudioStrip {
  readonly id: string;
  readonly name: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly pads: readonly StudioPad[];
  readonly dipSeconds: number;
  readonly readAfterSeconds: number;
  readonly readBeforeSeconds: number;
}

export const PRACTICE_FOUR: StudioStrip = {
  id: 'practice-four',
  name: 'Practice strip, four pads',
  lengthMm: 84,
  widthMm: 5.6,
  dipSeconds: 1,
  readAfterSeconds: 20,
  readBeforeSeconds: 45,
  pads: [
    {
      parameter: 'total-alkalinity',
      unit: 'mg/L',
      centreMm: 4.2,
      widthMm: 5,
      heightMm: 5.2,
      values: [0, 40, 70, 110, 160, 240],
      dryShare: 0.03,
      dyeings: (mgL) => {
        const pH = alkalinityPadPh(mgL, { pKa: 4.76, acidMmolL: 6.6, takenMmolL: 0.35 });
        return [{ dye: BROMOCRESOL_GREEN, amount: 1.15, share: baseShare(pH, BROMOCRESOL_GREEN.pKa) }];
      },
    },
    {
      parameter: 'free-chlorine',
      unit: 'mg/L',
      centreMm: 13.4,
      widthMm: 5,
      heightMm: 5.2,
      values: [0, 0.5, 1.5, 3, 6, 10],
      dryShare: 0,
      dyeings: (mgL) => [
        { dye: SYRINGALDAZINE, amount: 1.7, share: oxidisedShare(mgL, { halfMgL: 3.6, lostMgL: 0.7 }) },
      ],
    },
    {
      parameter: 'total-hardness',
      unit: 'mg/L',
      centreMm: 22.6,
      widthMm: 5,
      heightMm: 5.2,
      values: [0, 50, 100, 200, 350, 600],
      dryShare: 0.3,
      dyeings: (mgL) => [{ dye: CALMAGITE, amount: 1.2, share: metalShare(mgL, { chelatedMgL: 35, halfMgL: 120 }) }],
    },
    {
      parameter: 'ph',
      unit: 'pH',
      centreMm: 31.8,
      widthMm: 5,
      heightMm: 5.2,
      values: [6.4, 6.8, 7.2, 7.5, 7.8, 8.1, 8.5],
      dryShare: 0.02,
      dyeings: (pH) => [{ dye: PHENOL_RED, amount: 1.5, share: baseShare(pH, PHENOL_RED.pKa) }],
    },
  ],
};

export const PRACTICE_FIVE: StudioStrip = {
  id: 'practice-five',
  name: 'Practice strip, five pads',
  lengthMm: 104,
  widthMm: 6.4,
  dipSeconds: 2,
  readAfterSeconds: 30,
  readBeforeSeconds: 75,
  pads: [
    {
      parameter: 'total-hardness',
      unit: 'mg/L',
      centreMm: 5.6,
      widthMm: 5.2,
      heightMm: 5.6,
      values: [25, 100, 200, 400, 800],
      dryShare: 0.3,
      dyeings: (mgL) => [{ dye: CALMAGITE, amount: 1.7, share: metalShare(mgL, { chelatedMgL: 50, halfMgL: 160 }) }],
    },
    {
      parameter: 'ph',
      unit: 'pH',
      centreMm: 14.2,
      widthMm: 5.2,
      heightMm: 5.6,
      values: [6.5, 6.9, 7.2, 7.5, 7.8, 8.2],
      dryShare: 0.02,
      dyeings: (pH) => [{ dye: PHENOL_RED, amount: 1.9, share: baseShare(pH, PHENOL_RED.pKa) }],
    },
    {
      parameter: 'cyanuric-acid',
      unit: 'mg/L',
      centreMm: 22.8,
      widthMm: 5.2,
      heightMm: 5.6,
      values: [0, 25, 50, 100, 200],
      dryShare: 0.75,
      dyeings: (mgL) => {
        const pH = cyanuricPadPh(mgL, { pKa: 6.6, baseMmolL: 0.8, acidifiedMmolL: 0.1 });
        return [{ dye: BROMOTHYMOL_BLUE, amount: 1.2, share: baseShare(pH, BROMOTHYMOL_BLUE.pKa) }];
      },
    },
    {
      parameter: 'free-chlorine',
      unit: 'mg/L',
      centreMm: 31.4,
      widthMm: 5.2,
      heightMm: 5.6,
      values: [0, 1, 2, 4, 8],
      dryShare: 0,
      dyeings: (mgL) => [{ dye: DPD, amount: 1, share: oxidisedShare(mgL, { halfMgL: 3.4, lostMgL: 1 }) }],
    },
    {
      parameter: 'total-alkalinity',
      unit: 'mg/L',
      centreMm: 40,
      widthMm: 5.2,
      heightMm: 5.6,
      values: [20, 60, 100, 150, 220, 300],
      dryShare: 0.03,
      dyeings: (mgL) => {
        const pH = alkalinityPadPh(mgL, { pKa: 4.9, acidMmolL: 8, takenMmolL: 0.2 });
        return [{ dye: BROMOCRESOL_GREEN, amount: 1.6, share: baseShare(pH, BROMOCRESOL_GREEN.pKa) }];
      },
    },
  ],
};

/** The strip of somebody's own bottle: Dipwise has no scale for it until it is taught one. */
export const GARDEN_FOUR: StudioStrip = {
  id: 'garden-four',
  name: 'Garden strip, four pads',
  lengthMm: 78,
  widthMm: 5.8,
  dipSeconds: 2,
  readAfterSeconds: 15,
  readBeforeSeconds: 40,
  pads: [
    {
      parameter: 'cyanuric-acid',
      unit: 'mg/L',
      centreMm: 4.6,
      widthMm: 5.4,
      heightMm: 5.4,
      values: [0, 30, 60, 100, 180],
      dryShare: 0.75,
      dyeings: (mgL) => {
        const pH = cyanuricPadPh(mgL, { pKa: 6.6, baseMmolL: 0.95, acidifiedMmolL: 0.12 });
        return [{ dye: BROMOTHYMOL_BLUE, amount: 1.4, share: baseShare(pH, BROMOTHYMOL_BLUE.pKa) }];
      },
    },
    {
      parameter: 'total-alkalinity',
      unit: 'mg/L',
      centreMm: 13.6,
      widthMm: 5.4,
      heightMm: 5.4,
      values: [0, 40, 80, 120, 180, 250],
      dryShare: 0.03,
      dyeings: (mgL) => {
        const pH = alkalinityPadPh(mgL, { pKa: 4.76, acidMmolL: 7, takenMmolL: 0.4 });
        return [{ dye: BROMOCRESOL_GREEN, amount: 1.35, share: baseShare(pH, BROMOCRESOL_GREEN.pKa) }];
      },
    },
    {
      parameter: 'ph',
      unit: 'pH',
      centreMm: 22.6,
      widthMm: 5.4,
      heightMm: 5.4,
      values: [6.4, 6.8, 7.2, 7.6, 8, 8.4],
      dryShare: 0.02,
      dyeings: (pH) => [{ dye: PHENOL_RED, amount: 1.7, share: baseShare(pH, PHENOL_RED.pKa) }],
    },
    {
      parameter: 'free-chlorine',
      unit: 'mg/L',
      centreMm: 31.6,
      widthMm: 5.4,
      heightMm: 5.4,
      values: [0, 0.5, 1, 2, 4, 8],
      dryShare: 0,
      dyeings: (mgL) => [{ dye: DPD, amount: 0.9, share: oxidisedShare(mgL, { halfMgL: 3, lostMgL: 0.5 }) }],
    },
  ],
};

/** The strips whose scales come with Dipwise. */
export const STRIPS: readonly StudioStrip[] = [PRACTICE_FOUR, PRACTICE_FIVE];

export function stripCalled(id: string): StudioStrip {
  const strip = [...STRIPS, GARDEN_FOUR].find((one) => one.id === id);
  if (!strip) throw new Error(`no studio strip '${id}'`);
  return strip;
}

/** Colour of a developed pad in water of a given value. */
export function developed(pad: StudioPad, value: number, strength = 1): Spectrum {
  return padReflectance(pad.dyeings(value), strength);
}

/** Water fills the pores of a pad and lets light deeper in: dry, it throws back more, and absorbs less for its dye. */
const DRY_ABSORPTION = 0.6;

/** Colour of a pad that was never dipped; invented, as the dyes' dry forms are. */
export function undeveloped(pad: StudioPad, strength = 1): Spectrum {
  const dry = pad.dyeings(pad.values[0]!).map((dyeing) => ({ ...dyeing, share: pad.dryShare }));
  return padReflectance(dry, DRY_ABSORPTION * strength);
}
