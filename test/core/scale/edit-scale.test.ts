import { describe, expect, it } from 'vitest';
import { duplicateOf, freeScaleId, withPads } from '../../../src/core/scale/edit-scale.ts';
import { parseScale } from '../../../src/core/scale/schema.ts';
import { plainScale } from './fixtures.ts';

const editsOf = (scale: ReturnType<typeof plainScale>) =>
  scale.pads.map(({ centreMm, widthMm, heightMm, blocks }) => ({
    centreMm,
    widthMm,
    heightMm,
    values: blocks.map(({ value }): number | null => value),
  }));

describe('editing a scale', () => {
  it('without changes leaves it as it is', () => {
    const scale = plainScale();
    expect(withPads(scale, editsOf(scale))).toEqual(scale);
  });

  it('takes blocks out, and puts them in the order of their new values with their colours', () => {
    const scale = plainScale();
    const edits = editsOf(scale);
    // Two values were typed in each other's place, and one block is no block.
    const values = [6.2, 7.2, 6.8, null, 8.4];
    const changed = withPads(scale, [{ ...edits[0]!, values }, edits[1]!]);
    const [one, two, three, , five] = scale.pads[0]!.blocks;
    expect(changed.pads[0]!.blocks).toEqual([
      one,
      { value: 6.8, lab: three!.lab },
      { value: 7.2, lab: two!.lab },
      five,
    ]);
    expect(parseScale(changed).ok).toBe(true);
  });

  it('brings the colours of the photos that taught it into the same order', () => {
    const [pad] = plainScale().pads;
    const labs = pad!.blocks.map(({ lab }): [number, number, number] => [lab[0] - 5, lab[1], lab[2]]);
    const photo = { cardVersion: 1, light: 'shade', print: { dotGain: 0.2, black: 0.05 }, neutrals: {}, anchors: {} };
    const scale = { ...plainScale(), pads: [pad!], teachings: [{ ...photo, blocks: [labs] }] };
    const [edit] = editsOf(scale);
    const changed = withPads(scale, [{ ...edit!, values: [6.2, 7.2, 6.8, null, 8.4] }]);
    expect(changed.teachings).toEqual([{ ...photo, blocks: [[labs[0], labs[2], labs[1], labs[4]]] }]);
    expect(parseScale(changed).ok).toBe(true);
  });

  it('leaves pads alone that have no edit', () => {
    const scale = plainScale();
    const [edit] = editsOf(scale);
    const changed = withPads(scale, [{ ...edit!, centreMm: 6, widthMm: 4, heightMm: 3 }]);
    expect(changed.pads[0]).toEqual({ ...scale.pads[0]!, centreMm: 6, widthMm: 4, heightMm: 3 });
    expect(changed.pads[1]).toEqual(scale.pads[1]);
  });

  it('two blocks of one value are refused, with where they are', () => {
    const scale = plainScale();
    const edits = editsOf(scale);
    const parsed = parseScale(withPads(scale, [{ ...edits[0]!, values: [6.2, 6.8, 6.8, 7.8, 8.4] }, edits[1]!]));
    expect(parsed).toMatchObject({
      ok: false,
      issues: [{ path: ['pads', 0, 'blocks', 2, 'value'], code: 'values-not-rising' }],
    });
  });

  it('a copy of a practice scale is the owner’s own, and the original is untouched', () => {
    const scale = plainScale();
    const copy = duplicateOf(scale, 'mine', 'Mine');
    expect(copy).toMatchObject({ id: 'mine', name: 'Mine', origin: 'taught' });
    expect(scale).toEqual(plainScale());
    expect(parseScale(copy).ok).toBe(true);
  });
});

describe('ids', () => {
  it.each([
    ['Garden strip', 'garden-strip'],
    ['  Größe 7½ ', 'gro-e-71-2'],
    ['бассейн', 'strip'],
    ['---', 'strip'],
    ['((Pool -- 2))', 'pool-2'],
  ])('"%s" becomes %s', (name, id) => {
    const made = freeScaleId(name, new Set());
    expect(made).toBe(id);
    expect(parseScale({ ...plainScale(), id: made }).ok).toBe(true);
  });

  it('never meet', () => {
    expect(freeScaleId('Garden', new Set(['garden', 'garden-2']))).toBe('garden-3');
    expect(freeScaleId('x'.repeat(300), new Set()).length).toBeLessThanOrEqual(64);
  });
});
