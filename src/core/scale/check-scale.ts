/** What an owner should know of a scale before trusting it. Codes and numbers; the surface words them. */
import { ciede2000 } from '../colour/difference.ts';
import { curveThrough } from './curve.ts';
import type { StripScale } from './schema.ts';

export type ScaleConcern =
  /** Two neighbouring blocks that a photo can hardly tell apart. */
  | {
      readonly code: 'steps-too-small';
      readonly pad: number;
      readonly from: number;
      readonly to: number;
      readonly deltaE: number;
    }
  /** From this value to the top the colours hardly change. */
  | { readonly code: 'hardly-changes-above'; readonly pad: number; readonly from: number; readonly deltaE: number }
  /** Two stretches that are apart in value and near in colour: a reading there has two answers. */
  | {
      readonly code: 'fold';
      readonly pad: number;
      readonly one: number;
      readonly other: number;
      readonly deltaE: number;
    }
  /** A block that differs between teaching photos by more than light explains: mistapped, or another chart. */
  | { readonly code: 'photos-disagree'; readonly pad: number; readonly value: number; readonly deltaE: number };

/** CIEDE2000 below which a corrected photo confuses two colours more often than not: half its 90 % interval. */
const MIN_STEP = 2.5;
const FOLD_DISTANCE = 3;
/** A fold joins places at least this many blocks apart. */
const FOLD_APART = 2;
const MAX_DISAGREEMENT = 8;

export function checkScale(scale: StripScale): ScaleConcern[] {
  return scale.pads.flatMap((_, pad) => [...steps(scale, pad), ...folds(scale, pad), ...disagreements(scale, pad)]);
}

function steps(scale: StripScale, pad: number): ScaleConcern[] {
  const { blocks } = scale.pads[pad]!;
  const gaps = blocks.slice(1).map((block, i) => ciede2000(blocks[i]!.lab, block.lab));
  const lastTold = gaps.findLastIndex((gap) => gap >= MIN_STEP);
  const flatFrom = lastTold + 1;
  const small = gaps.flatMap((deltaE, i): ScaleConcern[] =>
    deltaE < MIN_STEP && i < flatFrom
      ? [{ code: 'steps-too-small', pad, from: blocks[i]!.value, to: blocks[i + 1]!.value, deltaE }]
      : [],
  );
  if (flatFrom >= gaps.length) return small;
  const deltaE = ciede2000(blocks[flatFrom]!.lab, blocks.at(-1)!.lab);
  return [...small, { code: 'hardly-changes-above', pad, from: blocks[flatFrom]!.value, deltaE }];
}

/** The nearest approach of the curve to itself, between places that aren't neighbours. */
function folds(scale: StripScale, pad: number): ScaleConcern[] {
  const curve = curveThrough(scale.pads[pad]!);
  const count = 8 * (scale.pads[pad]!.blocks.length - 1);
  const places = Array.from({ length: count + 1 }, (_, i) => (curve.length * i) / count);
  let nearest: ScaleConcern | null = null;
  let least = FOLD_DISTANCE;
  for (const one of places) {
    for (const other of places) {
      if (curve.blockAt(other) - curve.blockAt(one) < FOLD_APART) continue;
      const deltaE = ciede2000(curve.labAt(one), curve.labAt(other));
      const direct = other - one;
      // A stretch that hardly changes is no fold: its ends are near because the way between them is short.
      if (deltaE >= least || direct < 3 * FOLD_DISTANCE) continue;
      least = deltaE;
      nearest = { code: 'fold', pad, one: curve.valueAt(one), other: curve.valueAt(other), deltaE };
    }
  }
  return nearest ? [nearest] : [];
}

function disagreements(scale: StripScale, pad: number): ScaleConcern[] {
  return scale.pads[pad]!.blocks.flatMap((block, i): ScaleConcern[] => {
    const deltaE = Math.max(0, ...scale.teachings.map(({ blocks }) => ciede2000(blocks[pad]![i]!, block.lab)));
    return deltaE > MAX_DISAGREEMENT ? [{ code: 'photos-disagree', pad, value: block.value, deltaE }] : [];
  });
}
