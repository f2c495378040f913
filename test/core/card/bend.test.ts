import { describe, expect, it } from 'vitest';
import { fitBend, type Sighting } from '../../../src/core/card/bend.ts';
import { FIDUCIALS, MARKS } from '../../../src/core/card/geometry.ts';
import { fitHomography, type Homography, type Point, project } from '../../../src/core/card/homography.ts';

const PICTURE = { width: 2400, height: 1800 };
/** A card turned by ten degrees and tilted. */
const VIEW: Homography = [12.8, -2.3, 250, 2.1, 12.2, 320, 0.0011, -0.0006, 1];

type Warp = (photo: Point, card: Point) => Point;

const lens =
  (k: number): Warp =>
  ([x, y]) => {
    const [u, v] = [x - 1200, y - 900];
    const bend = 1 + (k * (u * u + v * v)) / 1500 ** 2;
    return [1200 + u * bend, 900 + v * bend];
  };

/** A sheet whose ends rise: places move along one direction in the photo by the square of their distance. */
const curl =
  (mostPx: number): Warp =>
  ([x, y], [xMm]) => {
    const lift = mostPx * ((xMm - 74) / 74) ** 2;
    return [x + 0.4 * lift, y + 0.9 * lift];
  };

/** Places on the card moved by so many mm at its ends for each of some powers of the place there, in half widths. */
const moved =
  (mm: number, powers: readonly (readonly [number, number])[]): Warp =>
  (_, [xMm, yMm]) => {
    const [x, y] = [(xMm - 74) / 74, (yMm - 52.5) / 74];
    const by = (sign: number) => powers.reduce((sum, [i, j], k) => sum + mm * sign ** k * x ** i * y ** j, 0);
    return project(VIEW, [xMm + by(-1), yMm + by(1)]);
  };

function sightings(warp: Warp, wobblePx = 0.05): Sighting[] {
  let seed = 1;
  const wobble = () => {
    seed = (seed * 16807) % 2147483647;
    return wobblePx * (seed / 1073741824 - 1) * 1.7;
  };
  const see = (card: Point, group: string): Sighting => {
    const [x, y] = warp(project(VIEW, card), card);
    return { card, photo: [x + wobble(), y + wobble()], sigmaPx: 0.15, group };
  };
  const corners = FIDUCIALS.flatMap(({ id, xMm, yMm, widthMm, heightMm }) =>
    [0, 1, 2, 3].map((i) => see([xMm + (i % 2) * widthMm, yMm + (i >> 1) * heightMm], id)),
  );
  return [...corners, ...MARKS.map((mark) => see([mark.xMm, mark.yMm], mark.id))];
}

function fit(seen: readonly Sighting[]) {
  const start = fitHomography(seen.slice(0, 16).map(({ card, photo }) => ({ from: card, to: photo })))!;
  return fitBend(seen, start, PICTURE);
}

function mostOffPx(warp: Warp, toPhoto: (xMm: number, yMm: number) => Point): number {
  let most = 0;
  for (let xMm = 4; xMm <= 144; xMm += 10) {
    for (let yMm = 4; yMm <= 101; yMm += 9.7) {
      const [x, y] = warp(project(VIEW, [xMm, yMm]), [xMm, yMm]);
      const [u, v] = toPhoto(xMm, yMm);
      most = Math.max(most, Math.hypot(x - u, y - v));
    }
  }
  return most;
}

describe('fitting a card that isn’t quite flat', () => {
  it('keeps to a plane when the card is plane', () => {
    const none: Warp = (photo) => photo;
    const map = fit(sightings(none));
    expect(map.model).toBe('flat');
    expect(mostOffPx(none, map.toPhoto)).toBeLessThan(0.1);
  });

  it('finds a lens’s bend', () => {
    for (const k of [-0.03, 0.015]) {
      const map = fit(sightings(lens(k)));
      expect(map.model).toBe('lens');
      expect(mostOffPx(lens(k), map.toPhoto)).toBeLessThan(0.3);
    }
  });

  it('follows a curl that a plane would miss by far', () => {
    const warp = curl(30);
    const map = fit(sightings(warp));
    expect(['bent', 'wavy']).toContain(map.model);
    expect(mostOffPx(warp, map.toPhoto)).toBeLessThan(1);
  });

  it('follows paper bent along any direction, and paper with a wave in it', () => {
    const second = [[2, 0], [1, 1], [0, 2]] as const; // prettier-ignore
    const third = [[3, 0], [2, 1], [1, 2], [0, 3]] as const; // prettier-ignore
    const bent = fit(sightings(moved(3, second)));
    expect(bent.model).toBe('bent');
    expect(mostOffPx(moved(3, second), bent.toPhoto)).toBeLessThan(0.5);
    const wavy = fit(sightings(moved(1.5, third)));
    expect(wavy.model).toBe('wavy');
    expect(mostOffPx(moved(1.5, third), wavy.toPhoto)).toBeLessThan(0.5);
  });

  it('gives up without sightings, and without a place to start from', () => {
    const seen = sightings((photo) => photo);
    expect(() => fitBend([], VIEW, PICTURE)).toThrow(RangeError);
    expect(() => fitBend(seen, [0, 0, 0, 0, 0, 0, 0, 0, 0], PICTURE)).toThrow(RangeError);
  });

  it('reports the errors that places left out would have had', () => {
    const seen = sightings(curl(20), 0);
    const map = fit(seen);
    const last = seen.length - 1;
    const without = fitBend(
      seen.slice(0, last),
      fitHomography(seen.slice(0, 16).map(({ card, photo }) => ({ from: card, to: photo })))!,
      PICTURE,
    );
    expect(without.model).toBe(map.model);
    const { card, photo } = seen[last]!;
    const [x, y] = without.toPhoto(...card);
    const trulyLeftOut = Math.hypot(x - photo[0], y - photo[1]);
    expect(map.leftOutPx[last]!).toBeGreaterThan(0);
    expect(map.leftOutPx[last]! / trulyLeftOut).toBeCloseTo(1, 1);
  });

  it('shows a wrong sighting by its error, and isn’t bent to it', () => {
    const seen = sightings((photo) => photo);
    const wrong = seen.map((sighting, i): Sighting =>
      i === 20 ? { ...sighting, photo: [sighting.photo[0] + 9, sighting.photo[1]] } : sighting,
    );
    const { leftOutPx } = fit(wrong);
    expect(leftOutPx.indexOf(Math.max(...leftOutPx))).toBe(20);
  });

  it('doesn’t bend without marks to bend by', () => {
    expect(fit(sightings(curl(10)).slice(0, 16)).model).toBe('flat');
  });
});
