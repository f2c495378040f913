import { beforeAll, describe, expect, it } from 'vitest';
import { startNodeEngine } from '../../src/cli/engine.ts';
import { loadScale } from '../../src/cli/scales.ts';
import type { Cv } from '../../src/vision/engine/opencv.ts';
import { readPhoto } from '../../src/vision/read.ts';
import { warmUpPhoto } from '../../src/vision/warm-up.ts';

let cv: Cv;
beforeAll(async () => {
  cv = await startNodeEngine();
});

describe.each(['practice-four', 'practice-five'])('a drawn photo for %s', (id) => {
  it('is read all the way, every pad between its first two blocks as it was drawn', async () => {
    const scale = await loadScale(id);
    const stages: string[] = [];
    const { reading } = readPhoto(cv, warmUpPhoto(scale), scale, (stage) => stages.push(stage));
    expect(stages).toEqual(['find-card', 'flatten', 'find-strip', 'read']);
    if (reading.outcome !== 'read') throw new Error(reading.outcome);
    for (const [i, { value }] of reading.pads.entries()) {
      const [first, second] = scale.pads[i]!.blocks;
      expect(value).toBeGreaterThan(first!.value);
      expect(value).toBeLessThan(second!.value);
    }
  });
});
