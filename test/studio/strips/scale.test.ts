import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { SLOT } from '../../../src/core/card/geometry.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { parseScale } from '../../../src/core/scale/schema.ts';
import { scaleOf, scaleText } from './scale.ts';
import { STRIPS } from './strips.ts';

const kept = (id: string) => readFileSync(new URL(`../../../src/content/scales/${id}.json`, import.meta.url), 'utf8');

describe.each(STRIPS.map((strip) => ({ id: strip.id, strip })))('$id', ({ id, strip }) => {
  test('is a good scale', () => {
    expect(parseScale(JSON.parse(kept(id)))).toMatchObject({ ok: true, scale: { id, origin: 'practice' } });
  });

  // A check of consistency only: the kept file and the script that writes it say the same.
  test('the kept file is what the script computes', () => {
    expect(kept(id)).toBe(scaleText(scaleOf(strip)));
  });

  test('fits the slot', () => {
    expect(strip.lengthMm).toBeLessThan(SLOT.widthMm);
    for (const pad of strip.pads) expect(pad.heightMm).toBeLessThanOrEqual(strip.widthMm);
  });

  test('neighbouring blocks differ, but not by more than real charts do', () => {
    for (const pad of scaleOf(strip).pads) {
      const steps = pad.blocks.slice(1).map((block, i) => ciede2000(pad.blocks[i]!.lab, block.lab));
      expect(Math.min(...steps), pad.parameter).toBeGreaterThan(2.5);
      expect(Math.max(...steps), pad.parameter).toBeLessThan(16);
    }
  });
});

test('chlorine and hardness hardly change at the top', () => {
  for (const strip of STRIPS) {
    for (const pad of scaleOf(strip).pads) {
      if (pad.parameter !== 'free-chlorine' && pad.parameter !== 'total-hardness') continue;
      const steps = pad.blocks.slice(1).map((block, i) => ciede2000(pad.blocks[i]!.lab, block.lab));
      expect(steps.at(-1)! / steps[0]!, `${strip.id} ${pad.parameter}`).toBeLessThan(0.5);
    }
  }
});
