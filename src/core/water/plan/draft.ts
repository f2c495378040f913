/** A step before it is put in order and its outcome is predicted. */
import type { QuantityId } from '../../measurement/quantities.ts';
import type { PlanInput } from '../../pool/schema.ts';
import type { CautionCode } from '../cautions.ts';
import { moveOf, product, type HowCode } from '../products.ts';
import type { Targets } from '../targets.ts';
import { addTo, type Cases } from './cases.ts';
import { amountLines, amountOf } from './dose.ts';
import type { KnownWater } from './known.ts';
import type { Span } from './spanned.ts';
import type { Amount, ArithmeticLine, ProductChoice, Step, StepKind, StepNote } from './step.ts';
import type { Hold } from './types.ts';

/** What every part of the planning looks at. */
export interface Context {
  readonly input: PlanInput;
  readonly known: KnownWater;
  readonly targets: Targets;
  /** Litres. */
  readonly volume: Span;
  /** Hours for the pump to move the water once; a usual 8 where the pump isn't known. Common practice, no source. */
  readonly turnoverHours: number;
}

export interface Draft {
  readonly id: string;
  readonly kind: StepKind;
  /** Of several rounds of acid and air, which. */
  readonly round?: number;
  /** Comes after everything else, whatever its kind. */
  readonly last?: true;
  /** Only once the stabilizer has dissolved. */
  readonly afterStabilizer?: true;
  /** What it is meant to move: retested afterwards. */
  readonly moves: readonly QuantityId[];
  /** The water after the whole step. */
  readonly apply: (cases: Cases) => Cases;
  readonly choice?: ProductChoice;
  readonly amount?: Amount;
  readonly parts: number;
  readonly replace?: NonNullable<Step['replace']>;
  readonly offer?: NonNullable<Step['offer']>;
  readonly toPh?: number;
  readonly hours?: number;
  readonly how: HowCode | null;
  readonly circulateMinutes: number;
  readonly notes: readonly StepNote[];
  readonly cautions: readonly CautionCode[];
  readonly why: readonly ArithmeticLine[];
}

/** What one part of the planning comes to. */
export interface Drafted {
  readonly drafts: readonly Draft[];
  readonly holds: readonly Hold[];
}

export const NOTHING: Drafted = { drafts: [], holds: [] };

/** Pump running after each kind of dose, minutes. Common practice, no source: 15-30 between products, longer for solids. */
const CIRCULATE_MINUTES: Partial<Record<StepKind, number>> = {
  'raise-alkalinity': 60,
  'lower-ph': 60,
  'raise-ph': 60,
  'raise-chlorine': 30,
  'clear-algae': 30,
  'oxidise-combined': 30,
  'lower-chlorine': 60,
  'raise-hardness': 120,
  'raise-salt': 24 * 60,
  'raise-stabilizer': 48 * 60,
};

export interface DoseSketch {
  readonly id: string;
  readonly kind: StepKind;
  readonly moves: readonly QuantityId[];
  readonly choice: ProductChoice;
  /** For the cautious end, per litre of the smallest volume the pool may have. */
  readonly mmolPerLitre: number;
  /** For the other end. */
  readonly upToMmolPerLitre: number;
  /** Why it might take more; 'readings' unless said otherwise. */
  readonly rangeFrom?: 'readings' | 'reaction';
  readonly parts?: number;
  readonly notes?: readonly StepNote[];
  /** Besides the product's own. */
  readonly cautions?: readonly CautionCode[];
  /** The lines before volume, strength and amount. */
  readonly why: readonly ArithmeticLine[];
}

export function doseDraft(context: Context, sketch: DoseSketch): Draft {
  const { volume } = context;
  const { choice } = sketch;
  const mmol = sketch.mmolPerLitre * volume.low;
  const move = moveOf(choice.product);
  const { how, cautions } = product(choice.product);
  const parts = sketch.parts ?? 1;
  return {
    id: sketch.id,
    kind: sketch.kind,
    moves: sketch.moves,
    apply: (cases) => addTo(cases, move, mmol),
    choice,
    amount: amountOf(choice, mmol, sketch.upToMmolPerLitre * volume.high, parts, sketch.rangeFrom),
    parts,
    how,
    circulateMinutes: CIRCULATE_MINUTES[sketch.kind] ?? 30,
    notes: sketch.notes ?? [],
    cautions: ['label', ...cautions, ...(sketch.cautions ?? []), 'wait-before-swimming'],
    why: [...sketch.why, ...amountLines(choice, mmol, volume.low, volume.low < volume.value)],
  };
}

/** Into how many parts a change goes so that none is larger than the limit. */
export function partsFor(change: number, limit: number): number {
  return Math.max(1, Math.ceil(Math.abs(change) / limit - 1e-6));
}
