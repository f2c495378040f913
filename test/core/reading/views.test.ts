/** Towards which of the photos that taught a scale a card's colours are led, and when towards none. */
import { describe, expect, it } from 'vitest';
import { decodeSrgb, encodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import { viewsOf } from '../../../src/core/reading/views.ts';
import type { CardSamples } from '../../../src/core/samples.ts';
import type { StripScale, Teaching } from '../../../src/core/scale/schema.ts';
import { teachingOf } from '../../../src/core/scale/teach.ts';
import { phPad, plainScale } from '../scale/fixtures.ts';
import { evenCard, pad } from './samples.ts';

/** The colour patches as another camera sees them, greys kept. */
function seenBy(matrix: readonly Triple[], card = evenCard()): CardSamples {
  const seen = (rgb: Triple) => {
    const linear = rgb.map(decodeSrgb);
    return matrix.map((row) => encodeSrgb(row.reduce((sum, share, c) => sum + share * linear[c]!, 0)));
  };
  return { ...card, anchors: card.anchors.map((one) => ({ ...one, rgb: seen(one.rgb) as unknown as Triple })) };
}

/** Rows add up to 1: grey stays grey. */
const CAMERA: Triple[] = [
  [1.05, -0.04, -0.01],
  [-0.02, 1.03, -0.01],
  [0.01, -0.05, 1.04],
];
/** Blocks of its own, so that a curve shows whose it is: the scale's, so many L* darker. */
function taughtBy(card: CardSamples, darker: number, change: Partial<Teaching> = {}): Teaching {
  const blocks = phPad().blocks.map(({ lab: [l, a, b] }): [number, number, number] => [l - darker, a, b]);
  return { ...teachingOf({ light: '', card, blocks: [] }, fitNeutrals(card).print), blocks: [blocks], ...change };
}

const scaleOf = (...teachings: Teaching[]): StripScale => ({ ...plainScale(), pads: [phPad()], teachings });
const firstL = ({ labAt }: { labAt(position: number): Triple }) => labAt(0)[0];
const whole = phPad().blocks[0]!.lab[0];
const byGreys = { correction: 'neutrals', anotherPrint: false, views: [{ weight: 1 }] };

describe('the views of a card', () => {
  it('is one by the greys alone where nothing was taught', () => {
    const seen = viewsOf(evenCard(), scaleOf());
    expect(seen).toMatchObject(byGreys);
    expect(firstL(seen.views[0]!.curves[0]!)).toBeCloseTo(whole, 9);
  });

  it('is one by the greys where the card has fewer than nine colour patches', () => {
    const darker = taughtBy(evenCard(), 5);
    const patches = (count: number) => evenCard({ anchors: evenCard().anchors.slice(0, count) });
    const seen = viewsOf(patches(8), scaleOf(darker));
    expect(seen).toMatchObject(byGreys);
    expect(firstL(seen.views[0]!.curves[0]!)).toBeCloseTo(whole, 9);
    expect(firstL(viewsOf(patches(9), scaleOf(darker)).views[0]!.curves[0]!)).toBeCloseTo(whole - 5, 9);
  });

  it('is led less surely by another print, and not at all where one that taught is at hand', () => {
    const other = taughtBy(evenCard({ version: 2, printMark: 6 }), 5);
    const card = evenCard({ version: 2, printMark: 5 });
    const alone = viewsOf(card, scaleOf(other));
    expect(alone).toMatchObject({ correction: 'anchors', anotherPrint: true, views: [{ weight: 1, teaching: 0 }] });
    const own = viewsOf(card, scaleOf(other, taughtBy(card, 9)));
    expect(own).toMatchObject({ correction: 'anchors', anotherPrint: false, views: [{ weight: 1, teaching: 1 }] });
    const doubtOf = ({ views: [view] }: typeof own) => view!.covarianceOf([[0.3, 0.2, 0.1]])[1]![1]!;
    expect(doubtOf(alone)).toBeGreaterThan(3 * doubtOf(own));
  });

  it('is one by the greys where no smooth map fits another print’s patches', () => {
    const card = evenCard({ version: 2, printMark: 5 });
    const mixed = card.anchors.map((one, i) => ({ ...one, rgb: card.anchors.at((7 * i + 3) % 18)!.rgb }));
    const seen = viewsOf({ ...card, anchors: mixed }, scaleOf(taughtBy(evenCard({ version: 2, printMark: 6 }), 5)));
    expect(seen).toMatchObject({ ...byGreys, anotherPrint: true });
  });

  it('holds the colours against the blocks as the teaching photo saw them', () => {
    const seen = viewsOf(evenCard(), scaleOf(taughtBy(evenCard(), 5)));
    expect(seen).toMatchObject({ anotherPrint: false, views: [{ weight: 1 }] });
    expect(firstL(seen.views[0]!.curves[0]!)).toBeCloseTo(whole - 5, 9);
  });

  it('is led by the anchors where another camera taught', () => {
    const seen = viewsOf(evenCard(), scaleOf(taughtBy(seenBy(CAMERA), 5)));
    expect(seen).toMatchObject({ correction: 'anchors', anotherPrint: false });
    const sample = pad('ph', [70, 20, 30]);
    const linear = seen.views[0]!.correction.toLinear(sample.rgb, sample.xMm, sample.yMm);
    const other = CAMERA.map((row) => row.reduce((sum, share, c) => sum + share * linear[c]!, 0));
    // As the other camera sees it, within a tenth of what the two differ by.
    const led = seen.views[0]!.toScale(sample);
    const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((value, c) => value - b[c]!));
    expect(apart(led, other)).toBeLessThan(0.1 * apart(linear, other));
  });

  it('counts the photo most like today’s for most, and all of them for 1', () => {
    const [like, unlike] = [taughtBy(evenCard(), 5), taughtBy(seenBy(CAMERA), 9)];
    for (const teachings of [
      [like, unlike],
      [unlike, like],
    ]) {
      const { views } = viewsOf(evenCard(), scaleOf(...teachings));
      const [one, other] = teachings[0] === like ? views : views.toReversed();
      expect(one!.weight + other!.weight).toBeCloseTo(1, 9);
      expect(one!.weight).toBeGreaterThan(other!.weight);
      expect(firstL(one!.curves[0]!)).toBeCloseTo(whole - 5, 9);
    }
    const twice = viewsOf(evenCard(), scaleOf(like, like)).views.map(({ weight }) => weight);
    expect(twice).toEqual([0.5, 0.5]);
  });

  it('leaves anchors alone that no camera leads to', () => {
    // Every other patch redder, the rest bluer: no map of colours brings both back.
    const card = evenCard();
    const torn = card.anchors.map((one, i): (typeof card.anchors)[number] => {
      const [r, g, b] = one.rgb;
      return { ...one, rgb: i % 2 === 0 ? [Math.min(1, r + 0.15), g, b - 0.15] : [r - 0.15, g, Math.min(1, b + 0.15)] };
    });
    const seen = viewsOf(evenCard({ anchors: torn }), scaleOf(taughtBy(card, 5)));
    expect(seen).toMatchObject({ correction: 'neutrals', anotherPrint: true, views: [{ weight: 1 }] });
    expect(firstL(seen.views[0]!.curves[0]!)).toBeCloseTo(whole, 9);
  });
});
