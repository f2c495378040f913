/** Free chlorine: up for today, up against algae, up to break combined chlorine, or down. */
import { hoursToRaise, type Cell } from '../../../pool/chlorinator.ts';
import type { CautionCode } from '../../cautions.ts';
import { BREAKPOINT_FACTOR } from '../../chlorine.ts';
import { electrolyse, thiosulfateFor, useUpChlorine } from '../../moves/chlorine.ts';
import { moveOf, type ProductId } from '../../products.ts';
import { bracketedRoot, type Place } from '../../root.ts';
import { REAGENTS } from '../../moves/reagents.ts';
import { CHLORINE_LIMIT, chlorineTarget, type Target } from '../../targets.ts';
import { CHLORINE_PER_MMOL, HARDNESS_PER_MMOL, type Water } from '../../water.ts';
import { addToWater, mapCases, type Cases } from '../cases.ts';
import { choose, onShelf } from '../choose.ts';
import { isMeasurable, massLines } from '../dose.ts';
import { doseDraft, NOTHING, partsFor, type Context, type Draft, type Drafted } from '../draft.ts';
import { holdFor, holdWith } from '../hold.ts';
import { spanIn } from '../predicted.ts';
import { SAFE_PH } from '../safe-band.ts';
import { judge, knownAs } from '../span.ts';
import type { Known } from '../spanned.ts';
import type { StepKind, StepNote } from '../step.ts';

/** Against algae: this share of the stabilizer, within these bounds, mg/L. Common practice, no source. */
const ALGAE = { perStabilizer: 0.4, least: 10, most: 20 } as const;
/** mg/L at a time, at most. Common practice, no source. */
const AT_A_TIME = 10;
/** The bottle strengths of chlorine that act at once, best first; tablets dissolve over days. */
const QUICK: readonly [ProductId, ...ProductId[]] = ['sodium-hypochlorite', 'household-bleach'];
/** Longer than this is no rise for now, h. */
const LONGEST_RUN = 24;
/** °C; below, cells make less or switch off. Common practice, no source. */
const COLD_FOR_CELLS = 15;

interface Goal {
  readonly kind: StepKind;
  readonly to: number;
  readonly notes: readonly StepNote[];
}

export function chlorineStep(context: Context, cases: Cases): Drafted {
  const { known, targets } = context;
  const free = knownAs(known['free-chlorine'], spanIn(cases, 'freeChlorine'));
  if (free.from === 'assumed') return holdWith('free-chlorine', 'not-measured', 'measure');
  const combined = combinedHold(context);
  const target = targets['free-chlorine'];
  const goal = goalOf(context, cases);
  const judgement = judge(free, target);
  const more = (drafted: Drafted): Drafted => ({ ...drafted, holds: [...drafted.holds, ...combined.holds] });
  if (goal) return more({ drafts: free.high < goal.to ? raise(context, cases, free, goal) : [], holds: [] });
  if (judgement === 'low') {
    const to = Math.min(target.aim, CHLORINE_LIMIT);
    if (free.high >= to) return more(NOTHING);
    const notes = dissolves(cases, target) ? (['for-the-stabilizer-to-come'] as const) : [];
    return more({ drafts: raise(context, cases, free, { kind: 'raise-chlorine', to, notes }), holds: [] });
  }
  if (free.low >= CHLORINE_LIMIT) return more({ drafts: lower(context, cases, free), holds: [] });
  return more(holdFor(context, 'free-chlorine', judgement));
}

/** The target counts on more stabilizer than there is yet. */
function dissolves(cases: Cases, target: Target): boolean {
  return !target.edited && target.aim > chlorineTarget(spanIn(cases, 'cyanuricAcid').value).aim + 0.1;
}

/** A level above the everyday one, where the water asks for it. */
function goalOf({ input, known, targets }: Context, cases: Cases): Goal | null {
  if (input.look.water === 'green') {
    const byStabilizer = ALGAE.perStabilizer * spanIn(cases, 'cyanuricAcid').value;
    const to = Math.min(ALGAE.most, Math.max(ALGAE.least, byStabilizer));
    return { kind: 'clear-algae', to, notes: ['chlorine-above-swim-limit-for-now', 'hold-until-clear'] };
  }
  const combined = known['combined-chlorine'];
  if (!combined || judge(combined, targets['combined-chlorine']) !== 'high') return null;
  const to = Math.min(CHLORINE_LIMIT, Math.max(targets['free-chlorine'].aim, BREAKPOINT_FACTOR * combined.low));
  return { kind: 'oxidise-combined', to, notes: ['oxidise-common-practice'] };
}

/** Combined chlorine needs both chlorines, and a difference larger than their doubts. */
function combinedHold({ known, targets }: Context): Drafted {
  const combined = known['combined-chlorine'];
  if (!combined) return NOTHING;
  const doubtful = judge(combined, targets['combined-chlorine']) === 'maybe-high';
  return doubtful && combined.value > targets['combined-chlorine'].high
    ? holdWith('combined-chlorine', 'straddles', 'better-test')
    : NOTHING;
}

function raise(context: Context, cases: Cases, free: Known, goal: Goal): Draft[] {
  const run = chlorinatorRun(context, cases, free, goal);
  if (run) return [run];
  const choice = choose(context.input, productsFitting(context, cases, goal.to - free.high));
  const reagent = choice.product as ChlorineProduct;
  const perMmol = chlorinePerMmol(reagent);
  const milligrams = withinBand(cases, goal.to - free.high, (water, added) =>
    addToWater(water, moveOf(reagent), added / perMmol),
  );
  const mmolPerLitre = milligrams / perMmol;
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return [];
  const brings: StepNote[] = [];
  if (reagent === 'dichlor') brings.push('adds-stabilizer');
  if (reagent === 'calcium-hypochlorite') brings.push('adds-calcium');
  return [
    doseDraft(context, {
      id: 'chlorine',
      kind: goal.kind,
      moves: ['free-chlorine', ...(goal.kind === 'oxidise-combined' ? (['total-chlorine'] as const) : [])],
      choice,
      mmolPerLitre,
      upToMmolPerLitre: (goal.to - free.low) / perMmol,
      parts: partsFor(milligrams, AT_A_TIME),
      notes: [...goal.notes, ...brings],
      cautions: levelCautions(goal.to),
      why: massLines('free-chlorine', free, goal.to, milligrams, mmolPerLitre),
    }),
  ];
}

/** Hypochlorite lifts the pH until it is used up: in the likeliest water no further than the safe band. */
function withinBand(
  { likely: { water } }: Cases,
  milligrams: number,
  chlorinate: (water: Water, milligrams: number) => Water,
): number {
  const excess = (added: number) => chlorinate(water, added).ph - SAFE_PH.high;
  if (water.ph >= SAFE_PH.high) return milligrams;
  const all: Place = [milligrams, excess(milligrams)];
  return all[1] > 0 ? (bracketedRoot(excess, [0, excess(0)], all, 1e-3) ?? milligrams) : milligrams;
}

type ChlorineProduct = 'sodium-hypochlorite' | 'household-bleach' | 'calcium-hypochlorite' | 'dichlor';

/** mg/L of free chlorine from one mmol/L of what the product holds. */
export function chlorinePerMmol(id: ChlorineProduct | 'trichlor'): number {
  const reagent = id === 'household-bleach' ? 'sodium-hypochlorite' : id;
  return REAGENTS[reagent].brings.chlorine * CHLORINE_PER_MMOL;
}

/** mg/L; above it, US labels commonly keep swimmers out. From memory, unverified. */
const LABEL_LIMIT = 4;

function levelCautions(to: number): CautionCode[] {
  if (to > CHLORINE_LIMIT) return ['chlorine-above-limit', 'back-in-range-first'];
  return to > LABEL_LIMIT ? ['label-chlorine-limit'] : [];
}

/** Liquid first; dry products only where the calcium or the stabilizer they bring is no harm. */
function productsFitting(
  { input, known, targets }: Context,
  cases: Cases,
  milligrams: number,
): [ProductId, ...ProductId[]] {
  const fitting: [ProductId, ...ProductId[]] = [...QUICK];
  const calcium = spanIn(cases, 'calciumHardness').value + (milligrams / (2 * CHLORINE_PER_MMOL)) * HARDNESS_PER_MMOL;
  if (calcium <= targets['calcium-hardness'].high) fitting.push('calcium-hypochlorite');
  const stabilizer = spanIn(cases, 'cyanuricAcid').high + milligrams * 0.92;
  const roomForStabilizer = known['cyanuric-acid'].from !== 'assumed' && stabilizer <= targets['cyanuric-acid'].high;
  if (input.pool.stabilised && roomForStabilizer) fitting.push('dichlor');
  return fitting;
}

/** Without a bottle on the shelf, a chlorinator that can do it within the day does it. */
function chlorinatorRun(context: Context, cases: Cases, free: Known, goal: Goal): Draft | null {
  const { input, known, targets, volume } = context;
  const { cell: given, chlorination } = input.pool;
  if (chlorination !== 'chlorinator' || !given || goal.kind !== 'raise-chlorine') return null;
  if (
    input.shelf.some(({ product }) =>
      (['sodium-hypochlorite', 'household-bleach', 'calcium-hypochlorite'] as string[]).includes(product),
    )
  ) {
    return null;
  }
  const saltIsLow = known.salt.from !== 'assumed' && known.salt.high < targets.salt.low;
  const cell: Cell = { ...given, setting: 1 };
  const milligrams = withinBand(cases, goal.to - free.high, electrolyse);
  const hours = hoursToRaise(volume.low, milligrams, cell);
  if (saltIsLow || hours > LONGEST_RUN) return null;
  return {
    id: 'run-chlorinator',
    kind: 'run-chlorinator',
    moves: ['free-chlorine'],
    apply: (state) =>
      mapCases(state, ({ water, volumeLitres }) => electrolyse(water, (milligrams * volume.low) / volumeLitres)),
    parts: 1,
    hours,
    how: null,
    circulateMinutes: Math.ceil(60 * hours),
    notes: known.temperature.value < COLD_FOR_CELLS ? ['cold-water-slows-the-cell'] : [],
    cautions: ['feed-stops-with-pump'],
    why: [
      { line: 'reading', reading: 'free-chlorine', known: free, used: free.high },
      { line: 'aim', target: 'free-chlorine', value: goal.to },
      { line: 'volume', litres: volume.low, lowEnd: volume.low < volume.value },
      { line: 'hours', grams: (milligrams * volume.low) / 1000, gramsPerHour: cell.gramsPerHour, hours },
    ],
  };
}

/** Above what anyone may swim in: sun and time, or thiosulfate where it is on the shelf, by its hungriest reaction. */
function lower(context: Context, cases: Cases, free: Known): Draft[] {
  const { input, targets } = context;
  const to = targets['free-chlorine'].high;
  const off: StepNote[] = input.pool.chlorination === 'chlorinator' ? ['chlorinator-off-until-chlorine-falls'] : [];
  const milligrams = free.low - to;
  const mmolPerLitre = thiosulfateFor(milligrams);
  // It leaves acid behind: not into water that has no room for it.
  const leavesBand = addToWater(cases.easyLow.water, 'thiosulfate', mmolPerLitre).ph < SAFE_PH.low;
  if (onShelf(input, 'sodium-thiosulfate') && !leavesBand) {
    return [
      doseDraft(context, {
        id: 'thiosulfate',
        kind: 'lower-chlorine',
        moves: ['free-chlorine', 'ph'],
        choice: choose(input, ['sodium-thiosulfate']),
        mmolPerLitre,
        upToMmolPerLitre: thiosulfateFor(free.high - to, 'to-sulfur'),
        notes: ['thiosulfate-least-by-stoichiometry', ...off],
        why: [
          { line: 'reading', reading: 'free-chlorine', known: free, used: free.low },
          { line: 'aim', target: 'free-chlorine', value: to },
          { line: 'by-mass', mgPerLitre: milligrams, mmolPerLitre },
        ],
      }),
    ];
  }
  return [
    {
      id: 'wait-for-chlorine',
      kind: 'wait-for-chlorine',
      moves: ['free-chlorine'],
      apply: (cases) => mapCases(cases, ({ water }) => useUpChlorine(water, Math.max(0, water.freeChlorine - to))),
      parts: 1,
      how: null,
      circulateMinutes: 0,
      notes: ['sun-takes-chlorine', ...off],
      cautions: ['chlorine-above-limit', 'back-in-range-first'],
      why: [
        { line: 'reading', reading: 'free-chlorine', known: free, used: free.low },
        { line: 'aim', target: 'free-chlorine', value: to },
      ],
    },
  ];
}
