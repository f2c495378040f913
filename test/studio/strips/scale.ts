/** The strip scale that a studio strip's own chart amounts to. */
import { D65 } from '../spectra/daylight.ts';
import { labOf } from '../spectra/observer.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import { PLASTIC } from './pads.ts';
import { developed, type StudioStrip, undeveloped } from './strips.ts';

function labUnderD65(reflectance: Spectrum): [number, number, number] {
  const [l, a, b] = labOf(reflectance, D65);
  return [hundredth(l), hundredth(a), hundredth(b)];
}

function hundredth(x: number): number {
  return Math.round(100 * x) / 100;
}

/** In the form of src/core/scale/schema.ts, Lab of developed pads under D65 for the 2 degree observer. */
export function scaleOf(strip: StudioStrip) {
  return {
    format: 'dipwise-scale',
    version: 1,
    id: strip.id,
    name: strip.name,
    origin: 'practice',
    white: 'D65',
    strip: { lengthMm: strip.lengthMm, widthMm: strip.widthMm, base: labUnderD65(PLASTIC) },
    pads: strip.pads.map((pad) => ({
      parameter: pad.parameter,
      unit: pad.unit,
      centreMm: pad.centreMm,
      widthMm: pad.widthMm,
      heightMm: pad.heightMm,
      dry: labUnderD65(undeveloped(pad)),
      blocks: pad.values.map((value) => ({ value, lab: labUnderD65(developed(pad, value)) })),
    })),
    dipSeconds: strip.dipSeconds,
    readAfterSeconds: strip.readAfterSeconds,
    readBeforeSeconds: strip.readBeforeSeconds,
    teachings: [],
  };
}

/** Pretty-printed, but with each block on one line. */
export function scaleText(scale: object): string {
  const text = JSON.stringify(scale, null, 2);
  return `${text.replace(/\[\s+(-?[\d.]+),\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]/g, '[$1, $2, $3]').replace(/\{\s+("value": [\d.]+),\s+("lab": \[[^\]]*\])\s+\}/g, '{ $1, $2 }')}\n`;
}
