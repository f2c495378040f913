/** What must hold for every plan; each check returns what it found against it, in words. */
import type { PlanInput } from '../../../../src/core/pool/schema.ts';
import { makePlan } from '../../../../src/core/water/plan/make-plan.ts';
import { mmolPerUnit, type ProductId } from '../../../../src/core/water/products.ts';
import type { PredictedWater } from '../../../../src/core/water/plan/spanned.ts';
import type { Step, StepKind } from '../../../../src/core/water/plan/step.ts';
import type { Plan } from '../../../../src/core/water/plan/types.ts';

export type Check = (plan: Plan) => string[];

const CHLORINE: ReadonlySet<StepKind> = new Set([
  'raise-chlorine',
  'clear-algae',
  'oxidise-combined',
  'run-chlorinator',
]);

/** Every number of the plan is one, and nothing is added or taken out in a negative amount. */
export const finite: Check = (plan) => {
  const found: string[] = [];
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !Number.isFinite(value)) found.push(`${path} is ${value}`);
    else if (value !== null && typeof value === 'object') {
      for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
    }
  };
  walk(plan, 'plan');
  for (const { kind, amount, hours, replace, after } of plan.steps) {
    if ((amount?.exact ?? 0) < 0 || (hours ?? 0) < 0 || (replace?.litresPerTime ?? 0) < 0)
      found.push(`${kind} is negative`);
    for (const [reading, { low }] of Object.entries(after.spans)) {
      if (low < -1e-9) found.push(`${reading} ends at ${low} after ${kind}`);
    }
  }
  return found;
};

/** Bicarbonate is none: where alkalinity is low and pH high both it and acid are needed, and they don't undo each other. */
export const acidOrBase: Check = ({ steps }) => {
  const has = (kind: StepKind) => steps.some((one) => one.kind === kind);
  return has('lower-ph') && has('raise-ph') ? ['acid and base'] : [];
};

const READINGS = [
  ['total-alkalinity', 'totalAlkalinity'],
  ['calcium-hardness', 'calciumHardness'],
  ['cyanuric-acid', 'cyanuricAcid'],
  ['salt', 'salt'],
] as const;
const ROUNDING = 0.02;

/**
 * No step raises a value above its limit (fresh water brings the alkalinity it has), and none leaves the index above its span that was below, unless a later step
 * of the same plan brings it back. The lift of chlorine goes as the chlorine is used up: its acid is counted.
 */
export const withinLimits: Check = (plan) => {
  const found: string[] = [];
  eachStep(plan, (before, step) => {
    for (const [target, reading] of READINGS) {
      const { limit, high } = plan.targets[target];
      const [was, now] = [before.water[reading], step.after.water[reading]];
      const top = Math.max(limit, high);
      const goesAgain = reading === 'totalAlkalinity' && (CHLORINE.has(step.kind) || step.kind === 'replace-water');
      // What chlorine or acid bring of salt is a hundredth of it.
      if (was <= top && now > 1.01 * top && !goesAgain) {
        found.push(`${step.kind} takes ${reading} from ${was} to ${now}`);
      }
    }
    const most = step.kind === 'clear-algae' ? 20 : 10;
    const free = step.after.water.freeChlorine;
    if (free > most + 0.5 && free > before.water.freeChlorine + 0.1)
      found.push(`${step.kind} to ${free} mg/L of chlorine`);
  });
  return [...found, ...indexRaised(plan)];
};

function indexRaised(plan: Plan): string[] {
  const { high } = plan.targets['saturation-index'];
  const found: string[] = [];
  eachStep(plan, (before, step, rest) => {
    if (CHLORINE.has(step.kind) || step.kind === 'replace-water') return;
    // Below pH 7.0 people come first.
    if (before.water.ph < 7 && ['aerate', 'raise-ph'].includes(step.kind)) return;
    const [was, is] = [before.saturationIndex.value, step.after.saturationIndex.value];
    const isBroughtBack = rest.some(({ after }) => after.saturationIndex.value <= Math.max(high, was) + ROUNDING);
    if (is > high + ROUNDING && is > was + ROUNDING && !isBroughtBack)
      found.push(`${step.kind} takes the index from ${was} to ${is}`);
  });
  return found;
}

function eachStep(plan: Plan, look: (before: PredictedWater, step: Step, rest: readonly Step[]) => void): void {
  plan.steps.forEach((step, i) => look(i === 0 ? plan.now : plan.steps[i - 1]!.after, step, plan.steps.slice(i + 1)));
}

/** The cell runs only in water with salt and warmth enough for it, today and from day to day. */
export const runsOnlyWhereItMay: Check = (plan) => {
  const found: string[] = [];
  const { readings, pool } = plan.input;
  const low = plan.targets.salt.low;
  const isSalted = (water: PredictedWater) => !readings.salt || water.water.salt >= low - 1e-6;
  const isWarm = (readings.temperature?.value ?? 25) >= 15;
  eachStep(plan, (before, { kind }) => {
    if (kind === 'run-chlorinator' && !(isSalted(before) && isWarm)) found.push('the cell runs without salt or warmth');
  });
  const { upkeep, end } = plan;
  if (upkeep?.kind === 'chlorinator' && !upkeep.pause && !isSalted(end)) found.push('the cell is set without salt');
  if (upkeep?.kind === 'chlorinator' && !isWarm) found.push('the cell is set in cold water');
  if (
    upkeep &&
    !upkeep.pause &&
    readings['free-chlorine'] &&
    end.water.freeChlorine > plan.targets['free-chlorine'].high + 1e-6
  ) {
    found.push(`chlorine goes on at ${end.water.freeChlorine}`);
  }
  return pool.chlorination === 'chlorinator' || !found.some((one) => one.includes('cell'))
    ? found
    : [...found, 'no cell'];
};

/** Limits written down here once more: MAHC 2018 (1, 2 and 10 mg/L; 7.8), its 6.6.3.1 (8.0), Montana (40 °C), 7.0 practice. */
export const noObjectionOnlyWhereNothingReaches: Check = (plan) => {
  const { swim } = plan.verdict;
  if (swim !== 'no-objection' && swim !== 'with-care') return [];
  const known = Object.fromEntries(plan.findings.map(({ target, known: one }) => [target, one]));
  const [free, ph, stabilizer] = [known['free-chlorine'], known['ph'], known['cyanuric-acid']];
  const found: string[] = [];
  if (!free || free.from === 'assumed' || !ph || ph.from === 'assumed')
    return ['something that decides wasn’t measured'];
  if (free.high >= 10 || free.open === 'above') found.push(`chlorine may reach ${free.high}`);
  if (swim === 'no-objection' && free.high > 4 && plan.input.pool.kind !== 'spa') found.push('above labels');
  if (free.low < (plan.input.pool.kind === 'spa' ? 3 : stabilizer!.value > 0 ? 2 : 1) - 1e-6)
    found.push(`chlorine may be ${free.low}`);
  if (ph.low < 7 - 1e-6 || ph.high > 7.8 + 1e-5 || ph.open !== null)
    found.push(`pH may lie from ${ph.low} to ${ph.high}`);
  if (plan.input.pool.stabilised && free.low * 20 < stabilizer!.high - 1e-5) found.push('low for the stabilizer');
  if (plan.input.readings.temperature && plan.now.spans.temperatureC.high > 40 + 1e-6) found.push('hot');
  return found;
};

const FIGHTS: ReadonlySet<StepKind> = new Set([
  'clear-algae',
  'oxidise-combined',
  'wait-for-chlorine',
  'lower-chlorine',
  'clean',
]);
/** Holds, and what is raised on purpose or goes on in rounds, are work left over by intent. */
const GOES_ON = [
  'lifted-by-chlorine',
  'goes-on-after-retest',
  'raised-on-purpose',
  'dosed-for-cautious-end',
  'held-for-retest',
];

/** The water that the plan predicts, as surely as it predicts it, needs no further step. */
export const asksForNothingMore: Check = (plan) => {
  const { steps, holds, endChecks, end } = plan;
  const goesOn = steps.some(({ kind }) => FIGHTS.has(kind));
  if (goesOn || holds.length > 0 || endChecks.some(({ why }) => why !== null && GOES_ON.includes(why))) return [];
  const { spans } = end;
  const { readings } = plan.input;
  const again = makePlan({
    ...plan.input,
    readings: {
      ...(readings['free-chlorine'] && { 'free-chlorine': spans.freeChlorine }),
      ...(readings.ph && { ph: spans.ph }),
      ...(readings['total-alkalinity'] && { 'total-alkalinity': spans.totalAlkalinity }),
      ...(readings['calcium-hardness'] && { 'calcium-hardness': spans.calciumHardness }),
      ...(readings['cyanuric-acid'] && { 'cyanuric-acid': spans.cyanuricAcid }),
      ...(readings.salt && { salt: spans.salt }),
      ...(readings.temperature && { temperature: spans.temperatureC }),
    },
  } as PlanInput);
  if (!again.ok) return again.issues.map(({ code }) => `the end is no water: ${code}`);
  // Scale is looked for as long as there is calcium.
  const asked = again.plan.steps.filter(({ kind }) => kind !== 'look-for-scale');
  return asked.map(({ kind }) => `${kind} once more, after ${steps.map((one) => one.kind).join(', ')}`);
};

export const ALL = {
  finite,
  acidOrBase,
  withinLimits,
  runsOnlyWhereItMay,
  noObjectionOnlyWhereNothingReaches,
  asksForNothingMore,
};

/** The same input with one reading's span widened by a share of what it is, or by a tenth of pH. */
export function widened(
  input: PlanInput,
  id: 'ph' | 'total-alkalinity' | 'calcium-hardness' | 'cyanuric-acid' | 'free-chlorine' | 'salt',
  by: number,
): PlanInput {
  const reading = input.readings[id];
  if (!reading) return input;
  const low = Math.max(0, (reading.low ?? reading.value) - by);
  return {
    ...input,
    readings: { ...input.readings, [id]: { ...reading, low, high: (reading.high ?? reading.value) + by } },
  };
}

/**
 * What the plan adds in all, by what it does: chlorine, acid, alkalinity (bicarbonate and soda ash make up for each
 * other), and the rest by product, mmol per litre. Null for a plan that replaces water: with more doubt it replaces
 * less or none, and then the rest of the plan is for another water.
 */
export function doses({ steps, input }: Plan): Map<string, number> | null {
  if (steps.some(({ kind }) => kind === 'replace-water')) return null;
  const found = new Map<string, number>();
  let saltOfAcid = 0;
  for (const { choice, amount } of steps) {
    if (!choice || !amount) continue;
    const [name, perMmol] = EFFECT[choice.product] ?? [choice.product, 1];
    const mmol = (amount.exact * mmolPerUnit(choice.product, choice.strength) * perMmol) / input.pool.volumeLitres;
    found.set(name, (found.get(name) ?? 0) + mmol);
    if (choice.product === 'hydrochloric-acid') saltOfAcid += mmol;
    // Stabilizer is an acid too, and spares others: at pH 7.5 it gives up four fifths of one proton (pKa 6.88).
    if (choice.product === 'cyanuric-acid') found.set('acid', (found.get('acid') ?? 0) + 0.8 * mmol);
  }
  // Hydrochloric acid becomes salt, mole for mole, and spares it.
  const salt = found.get('salt');
  if (salt !== undefined) found.set('salt', salt + saltOfAcid);
  return found;
}

const EFFECT: Partial<Record<ProductId, readonly [string, number]>> = {
  'sodium-hypochlorite': ['chlorine', 1],
  'household-bleach': ['chlorine', 1],
  'calcium-hypochlorite': ['chlorine', 2],
  dichlor: ['chlorine', 2],
  'hydrochloric-acid': ['acid', 1],
  'sodium-bisulfate': ['acid', 1],
  'sodium-bicarbonate': ['alkalinity', 1],
  'soda-ash': ['alkalinity', 2],
  borax: ['alkalinity', 2],
};
