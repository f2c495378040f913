/** From what the steps gave to a scale, checked. */
import { addPhoto } from '../../core/scale/add-photo.ts';
import { freeScaleId } from '../../core/scale/edit-scale.ts';
import { parseScale, type StripScale } from '../../core/scale/schema.ts';
import { withStripBase } from '../../core/scale/strip-base.ts';
import { type TaughtPhoto, teachScale } from '../../core/scale/teach.ts';
import { concernsOf } from '../scale/concerns-of.ts';
import { faultSentence } from '../../words/faults.ts';
import type { ChartResult, ChartResultRow } from './chart-result.ts';
import type { StripResult } from './strip-draft.ts';
import type { StripTimes } from './strip-step.ts';

export type Build =
  | { readonly ok: true; readonly scale: StripScale; readonly concerns: readonly string[] }
  | { readonly ok: false; readonly issues: readonly string[] };

export interface Parts {
  readonly name: string;
  readonly light: string;
  readonly chart: ChartResult;
  readonly strip: StripResult;
  readonly times: StripTimes;
  /** Ids that are in use. */
  readonly taken: ReadonlySet<string>;
}

export function buildScale({ name, light, chart, strip: { strip, pads, seen }, times, taken }: Parts): Build {
  const rows = pads.map(({ parameter }) => rowFor(chart, parameter));
  const request = {
    name,
    ...times,
    strip,
    pads: pads.map((pad, i) => ({ ...pad, unit: rows[i]!.unit, values: rows[i]!.values })),
  };
  return checked(() => {
    const scale = teachScale(request, [photoOf(chart, light, rows)], freeScaleId(name, taken));
    return seen ? withStripBase(scale, seen) : scale;
  });
}

/** @param chart shows every row of the scale, with all its blocks */
export function addLight(scale: StripScale, chart: ChartResult, light: string): Build {
  const rows = scale.pads.map(({ parameter }) => rowFor(chart, parameter));
  return checked(() => addPhoto(scale, photoOf(chart, light, rows)));
}

function rowFor({ rows }: ChartResult, parameter: string): ChartResultRow {
  const row = rows.find((one) => one.parameter === parameter);
  if (!row) throw new Error(`no row for ${parameter}`);
  return row;
}

function photoOf({ card }: ChartResult, light: string, rows: readonly ChartResultRow[]): TaughtPhoto {
  return { light, card, blocks: rows.map(({ samples }) => samples) };
}

function checked(build: () => StripScale): Build {
  let made: StripScale;
  try {
    made = build();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      ok: false,
      issues: ['Too many greys of the card are overexposed in the photo of the chart. Take it again.'],
    };
  }
  const parsed = parseScale(made);
  if (!parsed.ok) return { ok: false, issues: parsed.issues.map(faultSentence) };
  return { ok: true, scale: parsed.scale, concerns: concernsOf(parsed.scale) };
}
