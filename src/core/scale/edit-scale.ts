/** Changes an owner makes to a scale. Whatever comes out goes through `parseScale` before it is kept. */
import type { StripScale } from './schema.ts';

export interface PadEdit {
  readonly centreMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** In the order of the pad's blocks; null takes the block out. */
  readonly values: readonly (number | null)[];
}

/** A copy that is the owner's own, whatever it was copied from. */
export function duplicateOf(scale: StripScale, id: string, name: string): StripScale {
  return { ...structuredCopy(scale), id, name, origin: 'taught' };
}

/**
 * New values bring the blocks into a new order where need be; those of the teaching photos go along. What known water
 * taught about a pad rests on its old values, and goes with them.
 */
export function withPads(scale: StripScale, edits: readonly PadEdit[]): StripScale {
  const orders = scale.pads.map((pad, i) => newOrder(edits[i]?.values ?? pad.blocks.map(({ value }) => value)));
  const revalued = new Set(
    scale.pads
      .filter(({ blocks }, i) => edits[i]?.values.some((value, k) => value !== blocks[k]!.value))
      .map(({ parameter }) => parameter),
  );
  return {
    ...scale,
    pads: scale.pads.map((pad, i) => {
      const { values, centreMm, widthMm, heightMm } = edits[i] ?? { ...pad, values: null };
      const blocks = orders[i]!.map((from) => ({
        ...pad.blocks[from]!,
        value: values?.[from] ?? pad.blocks[from]!.value,
      }));
      return { ...pad, centreMm, widthMm, heightMm, blocks };
    }),
    ...(scale.learnt && { learnt: scale.learnt.filter(({ parameter }) => !revalued.has(parameter)) }),
    teachings: scale.teachings.map((teaching) => ({
      ...teaching,
      blocks: teaching.blocks.map((labs, i) => orders[i]!.map((from) => labs[from]!)),
    })),
  };
}

/** Which old block stands at each new place. */
function newOrder(values: readonly (number | null)[]): number[] {
  return values
    .flatMap((value, from) => (value === null ? [] : [{ value, from }]))
    .sort((one, other) => one.value - other.value)
    .map(({ from }) => from);
}

function structuredCopy<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T;
}

/** An id that a file name and an address can carry, made from a name and free among those given. */
export function freeScaleId(name: string, taken: ReadonlySet<string>): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48);
  const base = plain === '' ? 'strip' : plain;
  if (!taken.has(base)) return base;
  for (let n = 2; ; n++) if (!taken.has(`${base}-${n}`)) return `${base}-${n}`;
}
