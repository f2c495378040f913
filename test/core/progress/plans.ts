/** Plans to keep: a high pH with too little salt, and what the logbook has of it. */
import type { PlanEntry } from '../../../src/core/log/schema.ts';
import { type OpenPlan, opened, standing } from '../../../src/core/progress/rounds.ts';
import type { Plan } from '../../../src/core/water/plan/types.ts';
import { plain, reading } from '../water/plan/inputs.ts';

export const MADE = '2026-06-10T08:00:00.000Z';

export const at = (hours: number) => new Date(Date.parse(MADE) + hours * 3_600_000).toISOString();

/** Acid first, then salt. */
export const HIGH_PH = plain({
  pool: { chlorination: 'chlorinator', cell: { gramsPerHour: 20 } },
  readings: { ph: reading(8.1, 0.05), salt: reading(2000, 100) },
});

export function kept(input: object, id = 'plan-0001'): PlanEntry {
  const round = { time: MADE, because: 'made', input: input as PlanEntry['rounds'][0]['input'], done: [] } as const;
  const entry: PlanEntry = {
    id,
    poolId: 'first-pool',
    revision: 1,
    edited: MADE,
    time: MADE,
    zoneMinutes: 120,
    note: '',
    kind: 'plan',
    readingId: null,
    rounds: [{ ...round, done: [] }],
    next: null,
    closed: null,
  };
  return standing(entry, MADE);
}

export function planIn(entry: PlanEntry, now = MADE): { plan: Plan; progress: NonNullable<OpenPlan['progress']> } {
  const { plan, progress } = opened(entry, [], now);
  if (!plan || !progress) throw new Error('no plan');
  return { plan, progress };
}

export const doneAt = (step: string, hours: number, planned: number | null, amount = planned, part = 1) => ({
  step,
  part,
  time: at(hours),
  entryId: `entry-${step}-${hours}`.replaceAll('.', '-'),
  planned,
  amount,
});
