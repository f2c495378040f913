import { describe, expect, it } from 'vitest';
import { loadScale } from '../../src/cli/scales.ts';
import { readPhoto } from '../../src/vision/read.ts';
import { warmUpPhoto } from '../../src/vision/warm-up.ts';

describe.each(['practice-four', 'practice-five'])('a drawn photo for %s', (id) => {
  it('is read all the way, every pad between its first two blocks as it was drawn', async () => {
    const scale = await loadScale(id);
    const stages: string[] = [];
    const { reading } = readPhoto(warmUpPhoto(scale), scale, (stage) => stages.push(stage));
    expect(stages).toEqual(['find-card', 'flatten', 'find-strip', 'read']);
    if (reading.outcome !== 'read') throw new Error(reading.outcome);
    for (const [i, { value }] of reading.pads.entries()) {
      const [first, second] = scale.pads[i]!.blocks;
      expect(value).toBeGreaterThan(first!.value);
      expect(value).toBeLessThan(second!.value);
    }
  });
});
