/**
 * The ribbon's geometry: a scale laid out as a band with its blocks evenly
 * spaced, as on the bottle, and everything else placed along it. Positions are
 * fractions of the ribbon's width, 0 to 1.
 */
import { labToSrgb } from '../../core/colour/lab.ts';
import type { Estimate, OffScale } from '../../core/measurement/measurement.ts';
import { curveThrough, type ScaleCurve } from '../../core/scale/curve.ts';
import type { ScalePad } from '../../core/scale/schema.ts';

/** Room beyond both ends of the band for off-scale arrows and end labels. */
export const END_MARGIN = 0.06;
const STOPS_PER_STEP = 6;

export interface RibbonData {
  readonly pad: ScalePad;
  /** Where the value should lie; null where there is no such span. */
  readonly target: { readonly low: number; readonly high: number } | null;
  /** One, or two where the colour fits two stretches of the scale; none when nothing matched. */
  readonly estimates: readonly Estimate[];
  readonly offScale: OffScale;
  /** An interval that ends with the scale goes on beyond it. */
  readonly openBelow?: boolean;
  readonly openAbove?: boolean;
}

export interface PlacedEstimate {
  readonly at: number;
  readonly from: number;
  readonly to: number;
  /** The interval goes on past this end of the scale. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
}

export interface RibbonLayout {
  readonly band: { readonly from: number; readonly to: number };
  /** Offset along the band, 0 to 1, and an sRGB hex colour. */
  readonly stops: readonly { readonly offset: number; readonly colour: string }[];
  readonly ticks: readonly { readonly at: number; readonly value: number }[];
  readonly target: {
    readonly from: number;
    readonly to: number;
    /** The span goes on past this end of the scale. */
    readonly openBelow: boolean;
    readonly openAbove: boolean;
  } | null;
  readonly estimates: readonly PlacedEstimate[];
  readonly offScale: OffScale;
}

export function layoutRibbon(data: RibbonData): RibbonLayout {
  const curve = curveThrough(data.pad);
  const values = data.pad.blocks.map((block) => block.value);
  const at = (value: number) => END_MARGIN + (1 - 2 * END_MARGIN) * fractionOf(curve, value);
  const first = values[0]!;
  const last = values[values.length - 1]!;
  const overlaps = data.target !== null && data.target.high > first && data.target.low < last;
  return {
    band: { from: END_MARGIN, to: 1 - END_MARGIN },
    stops: colourStops(curve),
    ticks: values.map((value) => ({ at: at(value), value })),
    target:
      data.target && overlaps
        ? {
            from: at(data.target.low),
            to: at(data.target.high),
            openBelow: data.target.low < first,
            openAbove: data.target.high > last,
          }
        : null,
    estimates: data.estimates.map(({ value, low, high }) => ({
      at: at(value),
      from: at(low),
      to: at(high),
      openBelow: data.offScale === 'below' || low < first || (data.openBelow === true && low === first),
      openAbove: data.offScale === 'above' || high > last || (data.openAbove === true && high === last),
    })),
    offScale: data.offScale,
  };
}

/** Where a value lies between the first block (0) and the last (1); within a step, by colour, as the curve runs. */
function fractionOf({ positions, positionOf }: ScaleCurve, value: number): number {
  const steps = positions.length - 1;
  const position = positionOf(value);
  const step = Math.max(
    0,
    Math.min(
      positions.findLastIndex((block) => block <= position),
      steps - 1,
    ),
  );
  return (step + (position - positions[step]!) / (positions[step + 1]! - positions[step]!)) / steps;
}

function colourStops({ positions, labAt }: ScaleCurve): { offset: number; colour: string }[] {
  const steps = positions.length - 1;
  const count = steps * STOPS_PER_STEP;
  return Array.from({ length: count + 1 }, (_, i) => {
    const step = Math.min(Math.floor(i / STOPS_PER_STEP), steps - 1);
    const t = i / STOPS_PER_STEP - step;
    const position = positions[step]! + t * (positions[step + 1]! - positions[step]!);
    return { offset: i / count, colour: hex(labToSrgb(labAt(position))) };
  });
}

function hex(rgb: readonly number[]): string {
  return `#${rgb
    .map((x) =>
      Math.round(x * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}
