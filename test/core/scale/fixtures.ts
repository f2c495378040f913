import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';

/** A plain scale for tests: yellow to red in even steps, and one pad that hardly changes at its top. */
export function plainScale(): StripScale {
  return {
    format: 'dipwise-scale',
    version: 1,
    id: 'plain',
    name: 'Plain test strip',
    origin: 'practice',
    white: 'D65',
    strip: { lengthMm: 90, widthMm: 6 },
    pads: [phPad(), saturatingPad()],
    dipSeconds: 1,
    readAfterSeconds: 15,
    readBeforeSeconds: 30,
    teachings: [],
  };
}

export function phPad(): ScalePad {
  const values = [6.2, 6.8, 7.2, 7.8, 8.4];
  return {
    parameter: 'ph',
    unit: 'pH',
    centreMm: 5,
    widthMm: 5,
    heightMm: 5,
    blocks: values.map((value, i) => ({ value, lab: [80 - 6 * i, 5 + 9 * i, 60 - 6 * i] })),
  };
}

export function saturatingPad(): ScalePad {
  const values = [0, 1, 3, 5, 10];
  const reach = [0, 14, 26, 30, 31];
  return {
    parameter: 'free-chlorine',
    unit: 'mg/L',
    centreMm: 13,
    widthMm: 5,
    heightMm: 5,
    blocks: values.map((value, i) => ({ value, lab: [92 - 1.2 * reach[i]!, 1.3 * reach[i]!, 0 - 0.4 * reach[i]!] })),
  };
}
