/** Stabilizer, salt and calcium leave only with the water: beyond their limits, part of it is replaced first. */
import type { FillWater } from '../../../pool/schema.ts';
import { replaceWater } from '../../moves/dilute.ts';
import type { TargetId } from '../../targets.ts';
import { waterOf, type Water } from '../../water.ts';
import { mapCases, type Cases, type WaterCase } from '../cases.ts';
import type { Context, Draft } from '../draft.ts';
import { EPSILON } from '../span.ts';
import type { Known, Span } from '../spanned.ts';
import type { Assumption } from '../types.ts';

/** Share of the pool let out at a time, at most. Common practice, no source: water holds walls and liner in place. */
const MAX_AT_A_TIME = 1 / 3;

type FillReading = keyof FillWater;

/** Usual tap water where the owner doesn't know better. Common practice, no source. */
export const USUAL_FILL: Record<FillReading, Span> = {
  ph: { value: 7.8, low: 7.4, high: 8.2 },
  'total-alkalinity': { value: 100, low: 40, high: 200 },
  'calcium-hardness': { value: 120, low: 30, high: 250 },
  salt: { value: 50, low: 0, high: 200 },
  'cyanuric-acid': { value: 0, low: 0, high: 0 },
};

const LEAVES_WITH_WATER = ['cyanuric-acid', 'salt', 'calcium-hardness'] as const;
type Leaving = (typeof LEAVES_WITH_WATER)[number];

interface Need {
  readonly target: Leaving;
  readonly from: Known;
  readonly to: number;
  readonly fill: number;
  readonly share: number;
}

export interface Replaced {
  readonly draft: Draft | null;
  readonly assumptions: readonly Assumption[];
  /** Beyond their limit, but the fill water is no better. */
  readonly outOfReach: readonly TargetId[];
}

export function replaceWaterStep(context: Context): Replaced {
  const beyond = LEAVES_WITH_WATER.filter((id) => isBeyond(context, id));
  const needs = beyond.map((id) => needOf(context, id));
  const outOfReach = beyond.filter((_, i) => needs[i] === null);
  const possible = needs.filter((need) => need !== null);
  if (possible.length === 0) return { draft: null, assumptions: [], outOfReach };
  const deciding = possible.reduce((most, need) => (need.share > most.share ? need : most));
  const blank = (Object.keys(USUAL_FILL) as FillReading[]).some((id) => context.input.fill[id] === undefined);
  const assumptions: Assumption[] = blank ? [{ code: 'fill-water', span: USUAL_FILL['total-alkalinity'] }] : [];
  return { draft: draftOf(context, deciding, possible), assumptions, outOfReach };
}

function isBeyond({ known, targets }: Context, id: Leaving): boolean {
  const { low, from } = known[id];
  return from !== 'assumed' && low > targets[id].limit + EPSILON;
}

/** From the low end of the reading, so that never more water goes than must. */
function needOf({ input, known, targets }: Context, id: Leaving): Need | null {
  const from = known[id];
  const fill = input.fill[id] ?? USUAL_FILL[id].value;
  const to = id === 'calcium-hardness' || targets[id].aim <= fill ? targets[id].high : targets[id].aim;
  if (fill >= to) return null;
  return { target: id, from, to, fill, share: (from.low - to) / (from.low - fill) };
}

function draftOf(context: Context, need: Need, all: readonly Need[]): Draft {
  const { input, volume } = context;
  const times = need.share > MAX_AT_A_TIME ? Math.ceil(Math.log(1 - need.share) / Math.log(1 - MAX_AT_A_TIME)) : 1;
  const sharePerTime = 1 - (1 - need.share) ** (1 / times);
  const litresPerTime = sharePerTime * volume.value;
  const { surfaceM2 } = input.pool;
  const bringsStabilizer = input.pool.chlorination === 'trichlor' || input.pool.chlorination === 'dichlor';
  const saltPool = input.pool.chlorination === 'chlorinator' || context.known.salt.value > 1500;
  return {
    id: 'replace-water',
    kind: 'replace-water',
    moves: [
      ...all.map(({ target }) => target),
      'ph',
      'total-alkalinity',
      ...LEAVES_WITH_WATER.filter((id) => !all.some(({ target }) => target === id)),
      'free-chlorine',
    ],
    apply: (cases) => mapCases(cases, (one) => replaceWater(one.water, fillFor(input.fill, one, cases), need.share)),
    parts: 1,
    replace: {
      sharePerTime,
      times,
      litresPerTime,
      centimetresPerTime: surfaceM2 === undefined ? null : litresPerTime / (10 * surfaceM2),
    },
    how: null,
    circulateMinutes: Math.round(60 * context.turnoverHours),
    notes: [
      'never-empty-part-at-a-time',
      'pump-off-below-the-skimmer',
      'retest-before-going-on',
      ...(bringsStabilizer && all.some(({ target }) => target === 'cyanuric-acid')
        ? (['unstabilised-chlorine-from-now-on'] as const)
        : []),
    ],
    cautions: [
      'never-empty',
      ...(input.pool.surface === 'vinyl' ? (['liner-moves'] as const) : []),
      'discharge-permission',
      'discharge-downhill',
      ...(saltPool ? (['discharge-salt'] as const) : []),
      'discharge-slowly',
    ],
    why: [
      { line: 'reading', reading: need.target, known: need.from, used: need.from.low },
      { line: 'share', from: need.from.low, to: need.to, fill: need.fill, share: need.share },
      ...(times > 1 ? [{ line: 'goes', share: need.share, times, sharePerTime } as const] : []),
    ],
  };
}

/** An unknown fill water takes the end on whose side the case already lies, so that spans never shrink by guessing. */
export function fillFor(fill: FillWater, { water }: WaterCase, { likely }: Cases): Water {
  const at = (id: FillReading, reading: keyof Water): number => {
    const given = fill[id];
    if (given !== undefined) return given;
    const { value, low, high } = USUAL_FILL[id];
    if (water[reading] === likely.water[reading]) return value;
    return water[reading] < likely.water[reading] ? low : high;
  };
  return waterOf({
    ph: at('ph', 'ph'),
    temperatureC: water.temperatureC,
    totalAlkalinity: at('total-alkalinity', 'totalAlkalinity'),
    calciumHardness: at('calcium-hardness', 'calciumHardness'),
    salt: at('salt', 'salt'),
    cyanuricAcid: at('cyanuric-acid', 'cyanuricAcid'),
  });
}
