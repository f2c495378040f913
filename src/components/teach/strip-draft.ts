/** The strip as it is being described: what has been typed about its pads. */
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import type { StripSeen } from '../../core/scale/strip-base.ts';
import type { ProposedStrip } from '../../vision/messages.ts';
import { readMillimetres } from './rows.ts';

export interface PadDraft {
  /** null: a pad that the scale leaves out. */
  readonly parameter: PadQuantity | null;
  /** As typed, mm from the pad end. */
  readonly centre: string;
  readonly length: string;
}

export interface StripDraft {
  readonly lengthMm: string;
  readonly widthMm: string;
  /** From the pad end. */
  readonly pads: readonly PadDraft[];
}

export function emptyDraft(parameters: readonly PadQuantity[]): StripDraft {
  return { lengthMm: '', widthMm: '', pads: parameters.map((parameter) => ({ parameter, centre: '', length: '' })) };
}

export function fromProposal(
  { lengthMm, widthMm, pads }: ProposedStrip,
  order: readonly (PadQuantity | null)[],
): StripDraft {
  return {
    lengthMm: tenth(lengthMm),
    widthMm: tenth(widthMm),
    pads: pads.map((pad, i) => ({
      parameter: order[i] ?? null,
      centre: tenth(pad.centreMm),
      length: tenth(pad.widthMm),
    })),
  };
}

/** Pads measured with a ruler, all alike. */
export function evenlySpaced(draft: StripDraft, firstMm: number, spacingMm: number, padMm: number): StripDraft {
  return {
    ...draft,
    pads: draft.pads.map((pad, i) => ({ ...pad, centre: tenth(firstMm + i * spacingMm), length: tenth(padMm) })),
  };
}

/** What the pads measure, the other way round; where they are stays. */
export function turnedRound(draft: StripDraft): StripDraft {
  const order = draft.pads.map(({ parameter }) => parameter).reverse();
  return { ...draft, pads: draft.pads.map((pad, i) => ({ ...pad, parameter: order[i]! })) };
}

/** As many pads as counted: those at the far end go or come. */
export function withPadCount(draft: StripDraft, count: number): StripDraft {
  const pads = Array.from({ length: count }, (_, i) => draft.pads[i] ?? { parameter: null, centre: '', length: '' });
  return { ...draft, pads };
}

export interface StripResult {
  /** The strip and its card in the photo that was used, if one was. */
  readonly seen: StripSeen | null;
  readonly strip: { readonly lengthMm: number; readonly widthMm: number };
  /** From the pad end. */
  readonly pads: readonly {
    readonly parameter: PadQuantity;
    readonly centreMm: number;
    readonly widthMm: number;
    readonly heightMm: number;
  }[];
}

export type StripProblem =
  | { readonly code: 'strip-size' }
  | { readonly code: 'pad-size'; readonly pad: number }
  | { readonly code: 'left-out'; readonly parameters: readonly PadQuantity[] }
  | { readonly code: 'pad-twice'; readonly pad: number };

/** Pads are as high as long, unless the strip is narrower. */
export function finishStrip(
  draft: StripDraft,
  wanted: readonly PadQuantity[],
  seen: StripSeen | null = null,
):
  { readonly result: StripResult; readonly problem: null } | { readonly result: null; readonly problem: StripProblem } {
  const [lengthMm, widthMm] = [readMillimetres(draft.lengthMm), readMillimetres(draft.widthMm)];
  if (lengthMm === null || widthMm === null) return { result: null, problem: { code: 'strip-size' } };
  const pads: StripResult['pads'][number][] = [];
  for (const [i, { parameter, centre, length }] of draft.pads.entries()) {
    if (parameter === null) continue;
    const [centreMm, padMm] = [readMillimetres(centre), readMillimetres(length)];
    if (centreMm === null || padMm === null) return { result: null, problem: { code: 'pad-size', pad: i } };
    if (pads.some((pad) => pad.parameter === parameter))
      return { result: null, problem: { code: 'pad-twice', pad: i } };
    pads.push({ parameter, centreMm, widthMm: padMm, heightMm: Math.min(padMm, widthMm) });
  }
  const absent = wanted.filter((parameter) => !pads.some((pad) => pad.parameter === parameter));
  if (absent.length > 0) return { result: null, problem: { code: 'left-out', parameters: absent } };
  pads.sort((one, other) => one.centreMm - other.centreMm);
  return { result: { strip: { lengthMm, widthMm }, pads, seen }, problem: null };
}

function tenth(value: number): string {
  return String(Math.round(10 * value) / 10);
}
