/** Above what anyone may swim in: sun and time, or thiosulfate where it is on the shelf, dosed by the reaction that takes most chlorine. */
import { thiosulfateFor, useUpChlorine } from '../../moves/chlorine.ts';
import { addToWater, mapCases, type Cases } from '../cases.ts';
import { choose, onShelf } from '../choose.ts';
import { bracketedRoot } from '../../root.ts';
import { doseDraft, type Context, type Draft } from '../draft.ts';
import { SAFE_PH } from '../safe-band.ts';
import type { Known } from '../spanned.ts';
import type { StepNote } from '../step.ts';
import { isMaybeCombined } from './combined.ts';

export function lowerChlorine(context: Context, cases: Cases, free: Known): Draft[] {
  const { input, targets } = context;
  const to = targets['free-chlorine'].high;
  const off: StepNote[] = input.pool.chlorination === 'chlorinator' ? ['chlorinator-off-until-chlorine-falls'] : [];
  const milligrams = asThePhBears(cases, free.low - to);
  const mmolPerLitre = thiosulfateFor(milligrams);
  if (onShelf(input, 'sodium-thiosulfate') && milligrams > MIN_FALL && !isMaybeCombined(context)) {
    return [
      doseDraft(context, {
        id: 'thiosulfate',
        kind: 'lower-chlorine',
        moves: ['free-chlorine', 'ph'],
        choice: choose(input, ['sodium-thiosulfate']),
        mmolPerLitre,
        upToMmolPerLitre: thiosulfateFor(free.high - to, 'to-sulfur'),
        rangeFrom: 'reaction',
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
      apply: (state) => mapCases(state, ({ water }) => useUpChlorine(water, Math.max(0, water.freeChlorine - to))),
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

/** mg/L; for less, sun and time will do. */
const MIN_FALL = 0.5;

/** Thiosulfate leaves acid behind: not more than keeps the least buffered water in the band. */
function asThePhBears({ easyLow: { water } }: Cases, milligrams: number): number {
  const excess = (fall: number) => SAFE_PH.low - addToWater(water, 'thiosulfate', thiosulfateFor(fall)).ph;
  if (water.ph <= SAFE_PH.low) return 0;
  const all = excess(milligrams);
  return all <= 0 ? milligrams : (bracketedRoot(excess, [0, excess(0)], [milligrams, all], 1e-3) ?? 0);
}
