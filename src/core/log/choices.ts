/**
 * What a visitor has chosen and typed beside the logbook: the settings and the plan's form. They travel in its file;
 * another's never take the place of one's own without being asked for.
 */
import * as z from 'zod/mini';
import { QUANTITY_IDS } from '../measurement/quantities.ts';
import { EYES, THEMES, UNIT_SYSTEMS } from '../settings.ts';
import { canonical, type Replacement } from './compare.ts';
import { text } from './schema.ts';

const short = text(64);
const key = (pattern: RegExp) => z.string().check(z.regex(pattern));
const span = z
  .object({ low: z.number(), high: z.number() })
  .check(z.refine(({ low, high }) => low <= high, { params: { code: 'ends-first' } }));

export const choiceSchema = z.union([
  z.object({ key: z.literal('settings.units'), value: z.enum(UNIT_SYSTEMS) }),
  z.object({ key: z.literal('settings.eyes'), value: z.enum(EYES) }),
  z.object({ key: z.literal('settings.sound'), value: z.enum(['on', 'off']) }),
  z.object({ key: z.literal('settings.theme'), value: z.enum(THEMES) }),
  /** Ids of the scale that photos are read with, and of the pool that is shown. */
  z.object({ key: z.enum(['settings.scale', 'settings.pool']), value: short }),
  /** A field of the form by its place in the plan's input; numbers are metric. */
  z.object({
    key: key(/^plan\.(pool|fill|targets)(\.[A-Za-z][A-Za-z0-9-]{0,40}){1,3}$/),
    value: z.union([z.number(), short]),
  }),
  /** Strength as typed, '' for the usual one, of every product on the shelf. */
  z.object({ key: z.literal('plan.shelf'), value: z.record(key(/^[a-z][a-z0-9-]{0,40}$/), short) }),
  /** What else was told of a product on it: what its per cent count, the day it was made, its price. */
  z.object({
    key: z.literal('plan.bottles'),
    value: z.record(
      key(/^[a-z][a-z0-9-]{0,40}$/),
      z.object({ basis: z.optional(short), made: z.optional(short), price: z.optional(short) }),
    ),
  }),
  /** Where each reading should lie, as the plan last worked it out. */
  z.object({ key: z.literal('plan.spans'), value: z.partialRecord(z.enum(QUANTITY_IDS), span) }),
]);

export type Choice = z.output<typeof choiceSchema>;

export const CHOICE_GROUPS = ['plan', 'settings'] as const;
export type ChoiceGroup = (typeof CHOICE_GROUPS)[number];

export function groupOf({ key }: Choice): ChoiceGroup {
  return key.startsWith('plan.') ? 'plan' : 'settings';
}

export interface ChoiceChanges {
  /** Nothing is chosen here yet. */
  readonly add: readonly Choice[];
  /** Something else is chosen here: only where the visitor asks for it. */
  readonly replace: readonly Replacement<Choice>[];
  readonly same: number;
}

export function mergeChoices(present: readonly Choice[], incoming: readonly Choice[]): ChoiceChanges {
  const mine = new Map(present.map((choice) => [choice.key, choice]));
  const theirs = [...new Map(incoming.map((choice) => [choice.key, choice])).values()];
  const replace = theirs.flatMap((after) => {
    const before = mine.get(after.key);
    return before && !isSame(before, after) ? [{ before, after }] : [];
  });
  const add = theirs.filter(({ key }) => !mine.has(key));
  return { add, replace, same: theirs.length - add.length - replace.length };
}

/** What of the changes stays when only some groups may take the place of what is here. */
export function consented(changes: ChoiceChanges, groups: ReadonlySet<ChoiceGroup>): ChoiceChanges {
  return { ...changes, replace: changes.replace.filter(({ after }) => groups.has(groupOf(after))) };
}

export interface ChoiceUndo {
  readonly remove: readonly Choice['key'][];
  readonly put: readonly Choice[];
  /** Chosen anew since then, so they stay. */
  readonly kept: number;
}

export function undoChoices(
  present: readonly Choice[],
  { add, replace }: Pick<ChoiceChanges, 'add' | 'replace'>,
): ChoiceUndo {
  const mine = new Map(present.map((choice) => [choice.key, choice]));
  const untouched = (choice: Choice) => {
    const now = mine.get(choice.key);
    return now !== undefined && isSame(now, choice);
  };
  const touched = (choice: Choice) => mine.has(choice.key) && !untouched(choice);
  return {
    remove: add.filter(untouched).map(({ key }) => key),
    put: replace.filter(({ after }) => untouched(after)).map(({ before }) => before),
    kept: [...add, ...replace.map(({ after }) => after)].filter(touched).length,
  };
}

function isSame(a: Choice, b: Choice): boolean {
  return canonical(a) === canonical(b);
}
