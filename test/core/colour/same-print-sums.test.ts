/** What is added up over the patches; the patterns themselves are judged in same-print.test.ts, by simulation. */
import { describe, expect, it } from 'vitest';
import { ANCHORS } from '../../../src/core/card/geometry.ts';
import { labToLinear, type Triple } from '../../../src/core/colour/lab.ts';
import { unlikeSamePrint } from '../../../src/core/colour/same-print.ts';

/** Patches of a mid grey that came out changed by some Lab. */
const changed = (ids: readonly string[], by: Triple) =>
  ids.map((id) => ({ id, to: labToLinear([60, 0, 0]), from: labToLinear([60 + by[0], by[1], by[2]]) }));

describe('the change along the patterns', () => {
  const ids = ANCHORS.map(({ id }) => id);

  it.each(ids)('patch %s has its share in it: twice the change counts four times', (id) => {
    const once = unlikeSamePrint(changed([id], [1, 2, 3]));
    expect(once).toBeGreaterThan(0);
    expect(unlikeSamePrint(changed([id], [2, 4, 6]))).toBeCloseTo(4 * once, 5);
    expect(unlikeSamePrint(changed([id], [-1, -2, -3]))).toBeCloseTo(once, 5);
  });

  it('adds up the patches along each pattern before it squares', () => {
    // The same patch twice is twice the change.
    const once = unlikeSamePrint(changed(['at6'], [3, -1, 2]));
    expect(unlikeSamePrint(changed(['at6', 'at6'], [3, -1, 2]))).toBeCloseTo(4 * once, 5);
    // There and back is none.
    const [there, back] = [changed(['at6'], [3, -1, 2]), changed(['at6'], [-3, 1, -2])];
    expect(unlikeSamePrint([...there, ...back])).toBeCloseTo(0, 6);
  });

  it('says nothing of patches that it doesn’t know', () => {
    expect(unlikeSamePrint(changed(['a?'], [9, 9, 9]))).toBe(0);
  });
});
