/** A strip that stands off the card along a bend of its own: where it is seen, and how the light falls on it. */
import { lightOnTilted } from './light.ts';
import type { Turned } from './texture.ts';
import type { Illumination } from './types.ts';

/** From the place on the card's plane that the eye sees to the place straight below what it sees there. */
export interface Lifted {
  below(xMm: number, yMm: number): readonly [number, number];
  /** What is lifted may be seen this far from where it is. */
  readonly reachMm: number;
}

export interface Bow {
  readonly lifted: Lifted;
  /** Height above lying flat, mm, at a place along the strip from its middle. */
  heightAt(uMm: number): number;
  /** Light there against that on the level card. */
  lightAt(uMm: number): number;
}

type Eye = readonly [xMm: number, yMm: number, heightMm: number];

/** A parabola; its middle stands up for a positive height, its ends for a negative one. */
export function bowOf(outline: Turned, bowMm: number, eye: Eye, light: Illumination): Bow {
  const half = outline.widthMm / 2;
  const turn = (outline.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const share = (u: number) => Math.min(1.2, (u / half) ** 2);
  const heightAt = (u: number) => (bowMm > 0 ? bowMm * Math.max(0, 1 - share(u)) : -bowMm * share(u));
  const falling = lightOnTilted(light, outline.turnDegrees);
  const [eyeX, eyeY, eyeHeight] = eye;
  const distance = Math.hypot(eyeX - outline.xMm, eyeY - outline.yMm) + half;
  return {
    heightAt,
    lightAt: (u) => falling(Math.atan((2 * bowMm * u) / (half * half))),
    lifted: {
      reachMm: (Math.abs(bowMm) * 1.3 * distance) / (eyeHeight - Math.abs(bowMm)),
      below: (x, y) => {
        let [seenX, seenY] = [x, y];
        for (let i = 0; i < 4; i++) {
          const u = cos * (seenX - outline.xMm) + sin * (seenY - outline.yMm);
          const rise = heightAt(u) / eyeHeight;
          [seenX, seenY] = [x + rise * (eyeX - x), y + rise * (eyeY - y)];
        }
        return [seenX, seenY];
      },
    },
  };
}
