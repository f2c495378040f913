/** The order of the steps, and how long apart: what would make another worse is kept away from it. */
import type { Context, Draft } from './draft.ts';
import type { Step, StepKind } from './step.ts';

/**
 * Clean, then the water itself, then alkalinity before pH (it steadies it), then chlorine (it works best at the right
 * pH), then stabilizer, which dissolves in its sock while the rest goes on, then calcium, well after anything with
 * carbonate, and salt. Common practice, no source.
 */
const RANK: readonly StepKind[] = [
  'clean',
  'wait-for-chlorine',
  'lower-chlorine',
  'replace-water',
  'raise-alkalinity',
  'lower-ph',
  'raise-ph',
  'aerate',
  'raise-chlorine',
  'clear-algae',
  'oxidise-combined',
  'run-chlorinator',
  'raise-stabilizer',
  'raise-hardness',
  'raise-salt',
  'look-for-scale',
];

/** Hours between. Common practice, no source. */
export const ACID_TO_CHLORINE = 1;
export const CARBONATE_TO_CALCIUM = 12;
const STABILIZER_DISSOLVES = 48;
export const MIN_HOURS = 0.5;
/** What dissolves for days doesn't hold up the next step for longer. */
const MAX_HOURS = 2;

export function inOrder(drafts: readonly Draft[]): Draft[] {
  // Rounds of acid and air belong together and come in the order they were drafted.
  const rank = ({ kind, round, last }: Draft) =>
    last ? RANK.length : RANK.indexOf(round === undefined ? kind : 'lower-ph');
  return drafts
    .map((draft, i) => ({ draft, i }))
    .sort((a, b) => rank(a.draft) - rank(b.draft) || a.i - b.i)
    .map(({ draft }) => draft);
}

const CARBONATES: ReadonlySet<StepKind> = new Set(['raise-alkalinity', 'raise-ph']);
const CHLORINES: ReadonlySet<StepKind> = new Set([
  'raise-chlorine',
  'clear-algae',
  'oxidise-combined',
  'run-chlorinator',
]);

export function isChlorine(kind: StepKind): boolean {
  return CHLORINES.has(kind);
}

/** @param before the steps already placed, or done, in order */
export function waitBefore(
  { turnoverHours }: Pick<Context, 'turnoverHours'>,
  draft: Pick<Draft, 'kind' | 'last'>,
  before: readonly Pick<Draft, 'kind' | 'circulateMinutes'>[],
): Step['waitFirst'] {
  const last = before.at(-1);
  if (draft.last && before.some(({ kind }) => kind === 'raise-stabilizer'))
    return { hours: STABILIZER_DISSOLVES, reason: 'dissolve-first' };
  if (!last || last.kind === 'clean' || draft.kind === 'look-for-scale') return null;
  if (last.kind === 'replace-water') return { hours: turnoverHours, reason: 'mix-first' };
  if (draft.kind === 'raise-hardness' && before.some(({ kind }) => CARBONATES.has(kind))) {
    return { hours: CARBONATE_TO_CALCIUM, reason: 'calcium-and-carbonate' };
  }
  if (isChlorine(draft.kind) && before.some(({ kind }) => kind === 'lower-ph')) {
    return {
      hours: Math.max(ACID_TO_CHLORINE, Math.min(MAX_HOURS, last.circulateMinutes / 60)),
      reason: 'acid-and-chlorine',
    };
  }
  return { hours: Math.min(MAX_HOURS, Math.max(MIN_HOURS, last.circulateMinutes / 60)), reason: 'let-work' };
}
