import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NEUTRALS, SLOT } from '../../../src/core/card/geometry.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import type { PatchSample } from '../../../src/core/samples.ts';
import { card, encode, PADS, photograph, plain, type World } from './simple-card.ts';

function errors(world: World): number[] {
  const correction = fitNeutrals(card(world));
  return PADS.map((pad, i) => {
    const [x, y] = [30 + 12 * i, 52];
    const seen = correction.toLinear(photograph(world, pad, x, y), x, y);
    return ciede2000(linearToLab(seen), linearToLab(pad));
  });
}

describe('correction from the greys', () => {
  it('changes nothing when photo and print are as expected', () => {
    for (const error of errors({ ...plain, gains: [1.25, 1.25, 1.25] })) expect(error).toBeLessThan(0.35);
    expect(fitNeutrals(card(plain)).residual).toBeLessThan(0.15);
  });

  it('takes out white balance, uneven and two-coloured light, stray light', () => {
    const worlds = fc.record({
      gains: fc.tuple(
        fc.double({ min: 0.8, max: 1.15, noNaN: true }),
        fc.double({ min: 0.8, max: 1.15, noNaN: true }),
        fc.double({ min: 0.8, max: 1.15, noNaN: true }),
      ),
      fallX: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
      fallY: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
      castX: fc.double({ min: -0.04, max: 0.04, noNaN: true }),
      flare: fc.double({ min: 0, max: 0.02, noNaN: true }),
    });
    fc.assert(
      fc.property(worlds, (world) => {
        for (const error of errors({ ...plain, ...world })) expect(error).toBeLessThan(1.2);
      }),
      { seed: 1936, numRuns: 60 },
    );
  });

  it('bears a tone curve and a dot gain it was not told, within what they can hide from each other', () => {
    for (const contrast of [0.9, 1.12]) {
      for (const gain50 of [0.1, 0.24]) {
        const found = errors({ ...plain, contrast, gain50 });
        for (const error of found) expect(error).toBeLessThan(4.5);
      }
    }
  });

  it('reports the fall of light over the slot', () => {
    const fallX = 0.2;
    const over = Math.exp((fallX * SLOT.widthMm) / 148) - Math.exp((-fallX * SLOT.widthMm) / 148);
    expect(fitNeutrals(card({ ...plain, fallX })).shadingPercent).toBeCloseTo(100 * over, -0.5);
  });

  it('tells greys that are not grey', () => {
    const samples = card(plain);
    const tinted = {
      ...samples,
      neutrals: samples.neutrals.map((sample) => {
        const ink = NEUTRALS.find((patch) => patch.id === sample.id)!.ink;
        const tint = 0.08 * 4 * ink * (1 - ink);
        return { ...sample, rgb: [sample.rgb[0] + tint, sample.rgb[1], sample.rgb[2] - tint] as const };
      }),
    };
    expect(fitNeutrals(tinted).castResidual).toBeGreaterThan(2);
    expect(fitNeutrals(samples).castResidual).toBeLessThan(0.3);
  });

  it('will not fit a card whose greys are all clipped', () => {
    const samples = card(plain);
    const clipped = (all: readonly PatchSample[]) => all.map((sample) => ({ ...sample, clipped: 1 }));
    expect(() =>
      fitNeutrals({
        ...samples,
        neutrals: clipped(samples.neutrals),
        paper: clipped(samples.paper),
        slot: clipped(samples.slot),
      }),
    ).toThrow(RangeError);
  });

  it('tells how the greys were printed', () => {
    const { print } = fitNeutrals(card(plain));
    expect(Math.abs(print.dotGain - 0.17)).toBeLessThan(0.01);
    expect(Math.abs(print.black - 0.05)).toBeLessThan(0.005);
    expect(Math.hypot(...print.tint)).toBeLessThan(0.001);
  });

  it('finds the paper’s reflectance wherever the paper lies', () => {
    const { toLinear } = fitNeutrals(card({ ...plain, fallX: 0.2, fallY: -0.15, castX: 0.03 }));
    for (const [x, y] of [
      [10, 20],
      [140, 20],
      [74, 52],
      [10, 95],
      [140, 95],
    ] as const) {
      const seen = toLinear(
        photograph({ ...plain, fallX: 0.2, fallY: -0.15, castX: 0.03 }, [0.86, 0.86, 0.86], x, y),
        x,
        y,
      );
      for (const value of seen) expect(Math.abs(value - 0.86)).toBeLessThan(0.02);
    }
  });

  it('goes by a print that is known, where tone curve and dot gain hide each other', () => {
    const world = { ...plain, contrast: 1.15, gain50: 0.1 };
    const known = fitNeutrals(card(world), { dotGain: 0.1, black: 0.05 });
    const unknown = fitNeutrals(card(world));
    const off = ({ toLinear }: typeof known) => {
      const found = PADS.map((pad) =>
        ciede2000(linearToLab(toLinear(photograph(world, pad, 74, 52), 74, 52)), linearToLab(pad)),
      );
      return Math.max(...found);
    };
    expect(off(known)).toBeLessThan(1);
    expect(off(known)).toBeLessThan(0.5 * off(unknown));
    expect(Math.abs(known.print.dotGain - 0.1)).toBeLessThan(0.01);
  });

  /** Greys mixed from colours: so much redder and bluer, ln, at half coverage. */
  const mixed = (red: number, blue: number) => {
    const samples = card(plain);
    const tint = (sample: PatchSample) => {
      const ink = NEUTRALS.find((patch) => patch.id === sample.id)?.ink ?? SLOT.ink;
      const share = 4 * ink * (1 - ink);
      const rgb = sample.rgb.map((level, c) => {
        const linear = level <= 0.04045 ? level / 12.92 : ((level + 0.055) / 1.055) ** 2.4;
        return encode(linear * Math.exp(share * [red, 0, blue][c]!));
      });
      return { ...sample, rgb: rgb as unknown as Triple };
    };
    return { ...samples, neutrals: samples.neutrals.map(tint), slot: samples.slot.map(tint) };
  };

  it('finds the tint of mixed greys, names them, and spares paper and black', () => {
    const { print, tinted, residual, castResidual, toLinear } = fitNeutrals(mixed(0.1, -0.06));
    expect(Math.abs(print.tint[0] - 0.1)).toBeLessThan(0.03);
    expect(Math.abs(print.tint[1] + 0.06)).toBeLessThan(0.03);
    expect(castResidual).toBeGreaterThan(1.5);
    // What the mixture explains is no misfit.
    expect(residual).toBeLessThan(0.3);
    const ids = tinted.map(({ id }) => id);
    for (const { id, ink } of NEUTRALS) {
      if (ink === 0 || ink === 1) expect(ids).not.toContain(id);
      if (ink > 0.4 && ink < 0.6) expect(ids).toContain(id);
    }
    for (const { chroma } of tinted) expect(chroma).toBeGreaterThan(2);
    // The light is told from the mixture: paper stays without colour.
    const paper = toLinear(photograph(plain, [0.86, 0.86, 0.86], 74, 39), 74, 39);
    expect(Math.hypot(linearToLab(paper)[1], linearToLab(paper)[2])).toBeLessThan(1);
  });

  it.each([
    [0.1, 0],
    [0, -0.1],
  ])('finds a tint of one channel alone: %d red, %d blue', (red, blue) => {
    const { print } = fitNeutrals(mixed(red, blue));
    expect(Math.abs(print.tint[0] - red)).toBeLessThan(0.015);
    expect(Math.abs(print.tint[1] - blue)).toBeLessThan(0.015);
  });

  it('takes a faint tint for none that was mixed', () => {
    expect(fitNeutrals(mixed(0.01, -0.01)).tinted).toEqual([]);
  });

  it('uses no patch that is clipped, empty or unknown', () => {
    const samples = card(plain);
    const wrong: Triple = [0.9, 0.2, 0.2];
    const spoilt = (change: Partial<PatchSample>) => ({
      ...samples,
      neutrals: samples.neutrals.map((one, i) => (i === 4 ? { ...one, rgb: wrong, ...change } : one)),
    });
    const clean = fitNeutrals({ ...samples, neutrals: samples.neutrals.filter((_, i) => i !== 4) });
    for (const change of [{ clipped: 0.11 }, { count: 0 }, { id: 'n?' }]) {
      expect(fitNeutrals(spoilt(change)).residual).toBeCloseTo(clean.residual, 9);
    }
    expect(fitNeutrals(spoilt({ clipped: 0.1 })).residual).toBeGreaterThan(1);
  });

  it('needs six greys', () => {
    const samples = card(plain);
    const few = (count: number) => ({ ...samples, neutrals: samples.neutrals.slice(0, count), paper: [], slot: [] });
    expect(() => fitNeutrals(few(5))).toThrow(RangeError);
    expect(fitNeutrals(few(6)).residual).toBeLessThan(0.5);
  });
});
