import { describe, expect, it } from 'vitest';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../src/core/card/geometry.ts';
import { findCard, type FoundCard } from '../../../src/vision/card/find-card.ts';
import { inOrder } from '../../../src/vision/card/order.ts';
import { beside, emptyTable, type Photo, photograph, randomShot, type Shot } from '../pictures.ts';

const SHOT: Shot = {
  seed: 8,
  width: 1024,
  height: 768,
  fill: 0.7,
  turnDegrees: 12,
  tiltDegrees: 20,
  tiltAxisDegrees: 40,
  blurPx: 0.6,
  noise: 3,
  shade: 0.3,
  clutter: 12,
};

/** Largest distance between found and true places all over the card, mm. */
function errorMm(card: FoundCard, photo: Photo): number {
  let most = 0;
  for (let xMm = 0; xMm <= CARD_WIDTH_MM; xMm += CARD_WIDTH_MM / 8) {
    for (let yMm = 0; yMm <= CARD_HEIGHT_MM; yMm += CARD_HEIGHT_MM / 6) {
      const [x, y] = card.toPhoto(xMm, yMm);
      const [trueX, trueY] = photo.toPhoto(xMm, yMm);
      most = Math.max(most, Math.hypot(x - trueX, y - trueY) / card.pxPerMm);
    }
  }
  return most;
}

function findIn(shot: Shot): { card: FoundCard; errorMm: number } {
  const photo = photograph(shot);
  const { card } = findCard(photo.pixels);
  expect(card, JSON.stringify(shot)).not.toBeNull();
  return { card: card!, errorMm: errorMm(card!, photo) };
}

describe('finding the card', () => {
  it('finds it in every scene of a set by chance, to a fraction of a millimetre', { tags: 'release' }, () => {
    const errors = Array.from({ length: 16 }, (_, i) => findIn(randomShot(100 + i)).errorMm).sort((a, b) => a - b);
    expect(errors[8]).toBeLessThan(0.06);
    expect(errors.at(-1)).toBeLessThan(0.4);
  });

  it('says which way round it is, and when the photo is mirrored', () => {
    for (const turnDegrees of [0, 90, 180, 270]) {
      for (const mirrored of [false, true]) {
        const found = findIn({ ...SHOT, turnDegrees, mirrored });
        expect(found.card.mirrored).toBe(mirrored);
        expect(found.errorMm).toBeLessThan(0.1);
      }
    }
  });

  it('reports a sharp, flat card as such', () => {
    const { card } = findIn(SHOT);
    expect(card).toMatchObject({ fiducialsSeen: 4, marksSeen: 12, mirrored: false });
    expect(card.marksResidualMm).toBeLessThan(0.05);
  });

  it('follows paper that curls and a lens that bends', () => {
    const curled = findIn({ ...SHOT, tiltDegrees: 35, curlMm: 8, lens: -0.02 });
    expect(['bent', 'wavy']).toContain(curled.card.model);
    expect(curled.errorMm).toBeLessThan(0.3);
    expect(findIn({ ...SHOT, fill: 0.95, lens: -0.04 }).errorMm).toBeLessThan(0.1);
  });

  it('does with three fiducials when a finger hides one', () => {
    for (const cover of [
      [0, 0, 22, 21],
      [126, 0, 22, 21],
      [0, 84, 22, 21],
      [126, 84, 22, 21],
    ] as const) {
      const found = findIn({ ...SHOT, covers: [cover] });
      expect(found.card.fiducialsSeen).toBe(3);
      expect(found.errorMm).toBeLessThan(0.4);
    }
  });

  it('finds both of two cards', () => {
    const left = photograph({ ...SHOT, width: 800, clutter: 0 });
    const right = photograph({ ...SHOT, width: 800, clutter: 0, turnDegrees: 190, seed: 9 });
    const found = findCard(beside(left.pixels, right.pixels));
    if (!found.card) throw new Error('no card was found');
    const { card, others } = found;
    expect(card.fiducialsSeen).toBe(4);
    expect(others).toHaveLength(1);
    const [first, second] = inOrder([card, ...others]) as [FoundCard, FoundCard];
    expect(errorMm(first, left)).toBeLessThan(0.15);
    expect(errorMm(second, shifted(right, 800))).toBeLessThan(0.15);
    expect(inOrder([second, first])).toEqual([first, second]);
  });
});

function shifted(photo: Photo, byPx: number): Photo {
  return {
    ...photo,
    toPhoto: (xMm, yMm) => {
      const [x, y] = photo.toPhoto(xMm, yMm);
      return [x + byPx, y];
    },
  };
}

describe('finding no card', () => {
  it('in none of many cluttered tables', { tags: 'release' }, () => {
    for (let i = 0; i < 12; i++) {
      const { card, reason } = findCard(emptyTable({ ...randomShot(500 + i), clutter: 60 }));
      expect(card).toBeNull();
      expect(reason).toBe('no-card');
    }
  });

  it('in pictures of next to nothing', () => {
    for (const [width, height] of [
      [1, 1],
      [3, 2000],
      [40, 30],
      [30_000, 60],
    ] as const) {
      const data = new Uint8ClampedArray(width * height * 4).fill(200);
      expect(findCard({ data, width, height })).toEqual({ card: null, reason: 'no-card' });
    }
  });

  it('when the picture cuts it off', () => {
    for (const shift of [
      [0.3, 0],
      [-0.3, 0.05],
      [0.1, 0.32],
      [0, -0.3],
    ] as const) {
      const photo = photograph({ ...SHOT, fill: 0.85, shift });
      expect(findCard(photo.pixels)).toEqual({ card: null, reason: 'card-cut-off' });
    }
  });
});

describe('the blur of a photo', () => {
  it('is measured in millimetres on the card, from sharp to hopeless', () => {
    for (const blurMm of [0.3, 0.5, 0.8, 1]) {
      const shot = { ...SHOT, tiltDegrees: 0, turnDegrees: 0, clutter: 0, noise: 4 };
      const { card } = findIn({ ...shot, blurPx: blurMm * ((0.7 * 1024) / CARD_WIDTH_MM) });
      expect(card.blurMm! / blurMm).toBeGreaterThan(0.88);
      expect(card.blurMm! / blurMm).toBeLessThan(1.15);
    }
  });
});
