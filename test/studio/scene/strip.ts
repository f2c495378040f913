/** The dipped strip, laid on the card's texture: its shadow, plastic, pads, wet film and glints. */
import { SLOT } from '../../../src/core/card/geometry.ts';
import { randomFrom } from '../random.ts';
import { PLASTIC } from '../strips/pads.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import { developed, stripCalled, type StudioPad, type StudioStrip, undeveloped } from '../strips/strips.ts';
import { type Bow, bowOf } from './bow.ts';
import { makeNoise, type Noise } from './noise.ts';
import type { Palette } from './palette.ts';
import {
  add,
  cover,
  depthInside,
  eachTexel,
  edgeShare,
  multiply,
  smoothstep,
  type Colour,
  type Texture,
  type Turned,
} from './texture.ts';
import type { Illumination, LaidStrip } from './types.ts';

export function stripOf(laid: LaidStrip): StudioStrip {
  return stripCalled(laid.id);
}

/**
 * The strip as long as it is on a card that was printed at a scale: places on the card are counted as if printed at 1.
 */
export function stripOnCard(laid: LaidStrip, cardScale: number): StudioStrip {
  const strip = stripOf(laid);
  if (cardScale === 1) return strip;
  const on = (mm: number) => mm / cardScale;
  return {
    ...strip,
    lengthMm: on(strip.lengthMm),
    widthMm: on(strip.widthMm),
    pads: strip.pads.map((pad) => ({
      ...pad,
      centreMm: on(pad.centreMm),
      widthMm: on(pad.widthMm),
      heightMm: on(pad.heightMm),
    })),
  };
}

/** Outline of the strip on the card; its `u` runs from one end to the other, pads first unless reversed. */
export function outlineOf(laid: LaidStrip, strip: StudioStrip = stripOf(laid)): Turned {
  return {
    xMm: SLOT.xMm + SLOT.widthMm / 2 + laid.alongMm,
    yMm: SLOT.yMm + SLOT.heightMm / 2 + laid.acrossMm,
    widthMm: strip.lengthMm,
    heightMm: strip.widthMm,
    turnDegrees: laid.angleDegrees + (laid.reversed ? 180 : 0),
    radiusMm: 0.5,
  };
}

/** How thick a strip with its pads stands above the card, mm. */
const THICKNESS_MM = 0.5;

export interface Laying {
  readonly light: Illumination;
  readonly palette: Palette;
  readonly seed: number;
  /** Where the lens is: x and y as on the card, and its height above it, mm. */
  readonly eye: readonly [xMm: number, yMm: number, heightMm: number];
  readonly cardScale: number;
}

export function layStrip(texture: Texture, laid: LaidStrip, laying: Laying): void {
  const { light, palette, seed } = laying;
  const strip = stripOnCard(laid, laying.cardScale);
  const outline = outlineOf(laid, strip);
  const noise = makeNoise(seed);
  const bow = laid.bowMm ? bowOf(outline, laid.bowMm, laying.eye, light) : null;
  castShadow(texture, outline, light, bow);
  const plastic = palette.colourOf(PLASTIC);
  const veil = laid.veil * (1 - (laid.dry ?? 0));
  const film = (u: number, v: number) => veil * (1 + 0.6 * noise(u * 0.25 + 90, v * 0.25));
  eachTexel(
    texture,
    outline,
    1,
    (index, u, v, depthMm) => {
      const share = edgeShare(texture, depthMm);
      if (share === 0) return;
      cover(texture, index, plastic, share);
      multiply(texture, index, 1 - share * 0.12 * (1 - smoothstep(depthMm, 0, 0.25)));
      if (bow) multiply(texture, index, 1 + share * (bow.lightAt(u) - 1));
      add(texture, index, palette.white, share * film(u, v));
    },
    bow?.lifted,
  );
  if (laid.faceDown) return;
  strip.pads.forEach((pad, i) => {
    const around = { noise, film, white: palette.white, light, bow };
    layPad(texture, outline, pad, padColours(pad, laid, i, palette), around);
  });
  addGlints(texture, outline, strip, laid.glints, palette.white, seed);
  addGlare(texture, outline, strip, laid.glare ?? [], palette.white);
}

/** Colours of a pad where its dye is thin, as meant, and thick. */
function padColours(pad: StudioPad, laid: LaidStrip, i: number, palette: Palette): readonly [Colour, Colour] {
  const strength = laid.strengths[i] ?? 1;
  const value = laid.values[pad.parameter];
  if (value === undefined) throw new Error(`the scene gives no ${pad.parameter}`);
  const dry = laid.dry ?? 0;
  const dyed = (strength: number): Spectrum => {
    if (dry === 0) return developed(pad, value, strength);
    const before = undeveloped(pad, strength);
    return dry === 1 ? before : developed(pad, value, strength).map((now, i) => now + dry * (before[i]! - now));
  };
  return padTints((factor) => dyed(strength * factor), laid.mottle, palette);
}

function padTints(dyed: (factor: number) => Spectrum, mottle: number, palette: Palette): readonly [Colour, Colour] {
  return [palette.colourOf(dyed(1 - 2 * mottle)), palette.colourOf(dyed(1 + 2 * mottle))];
}

interface Surroundings {
  readonly noise: Noise;
  readonly film: (u: number, v: number) => number;
  readonly white: Colour;
  readonly light: Illumination;
  readonly bow: Bow | null;
}

function layPad(
  texture: Texture,
  strip: Turned,
  pad: StudioPad,
  [thin, thick]: readonly [Colour, Colour],
  { noise, film, white, light, bow }: Surroundings,
): void {
  const shape = padOutline(strip, pad);
  const away = awayFrom(light, strip.turnDegrees);
  const along = pad.centreMm - strip.widthMm / 2;
  const mixed: number[] = [...thin];
  eachTexel(
    texture,
    shape,
    0.8,
    (index, u, v) => {
      // Cut edges of a paper pad wander a little.
      const wander = 0.045 * noise((u + along) * 3, v * 3 + 40);
      const depth = depthInside(u, v, pad.widthMm, pad.heightMm, 0.25) + wander;
      const shaded = depthInside(u - 0.3 * away[0], v - 0.3 * away[1], pad.widthMm, pad.heightMm, 0.3);
      if (depth < 0) multiply(texture, index, 1 - 0.3 * light.softness * smoothstep(shaded, -0.35, 0.2));
      const share = edgeShare(texture, depth);
      if (share === 0) return;
      const uneven = 0.5 + 0.35 * noise((u + along) * 0.8, v * 0.8 + 7) + 0.3 * noise((u + along) * 4, v * 4 + 20);
      for (let c = 0; c < mixed.length; c++) mixed[c] = thin[c]! + uneven * (thick[c]! - thin[c]!);
      cover(texture, index, mixed, share);
      multiply(texture, index, 1 - share * 0.1 * (1 - smoothstep(depth, 0, 0.3)));
      if (bow) multiply(texture, index, 1 + share * (bow.lightAt(u + along) - 1));
      add(texture, index, white, share * film(u + along, v));
    },
    bow?.lifted,
  );
}

export function padOutline(strip: Turned, pad: StudioPad): Turned {
  const turn = (strip.turnDegrees * Math.PI) / 180;
  const along = pad.centreMm - strip.widthMm / 2;
  return {
    xMm: strip.xMm + along * Math.cos(turn),
    yMm: strip.yMm + along * Math.sin(turn),
    widthMm: pad.widthMm,
    heightMm: pad.heightMm,
    turnDegrees: strip.turnDegrees,
    radiusMm: 0.25,
  };
}

/** Unit vector away from the main light, in the axes of something turned. */
function awayFrom(light: Illumination, turnDegrees: number): readonly [number, number] {
  const angle = ((light.fromDegrees + 180 - turnDegrees) * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle)];
}

function castShadow(texture: Texture, outline: Turned, light: Illumination, bow: Bow | null): void {
  const away = awayFrom(light, outline.turnDegrees);
  const mostMm = bow ? Math.max(bow.heightAt(0), bow.heightAt(outline.widthMm / 2)) : 0;
  eachTexel(texture, outline, 3 + 1.5 * mostMm, (index, u, v, depthMm) => {
    const heightMm = THICKNESS_MM + (bow?.heightAt(u) ?? 0);
    if (depthMm > (bow ? 0.5 + 1.4 * heightMm : 0.5)) return;
    const reachMm = heightMm * 1.4;
    const blurMm = 0.25 + 0.5 * (1 - light.softness) * (heightMm / THICKNESS_MM) ** 0.5;
    const shifted = depthInside(u - reachMm * away[0], v - reachMm * away[1], outline.widthMm, outline.heightMm, 0.5);
    const cast = (0.25 + 0.3 * light.softness) * smoothstep(shifted, -blurMm, blurMm);
    const contact = (0.25 / (1 + heightMm - THICKNESS_MM)) * smoothstep(depthMm, -0.6, 0);
    multiply(texture, index, (1 - cast) * (1 - contact));
  });
}

/** Bright specks where the film mirrors the light or the sky. */
function addGlints(
  texture: Texture,
  outline: Turned,
  strip: StudioStrip,
  count: number,
  white: Colour,
  seed: number,
): void {
  const random = randomFrom(seed).fork('glints');
  for (let i = 0; i < count; i++) {
    const pad = random.pick(strip.pads);
    const turn = (outline.turnDegrees * Math.PI) / 180;
    const u = pad.centreMm - outline.widthMm / 2 + random.between(-3, 3);
    const v = random.between(-0.45, 0.45) * outline.heightMm;
    const size = random.between(0.15, 0.55);
    const strength = random.between(0.3, 3);
    const glint: Turned = {
      xMm: outline.xMm + u * Math.cos(turn) - v * Math.sin(turn),
      yMm: outline.yMm + u * Math.sin(turn) + v * Math.cos(turn),
      widthMm: 0.1,
      heightMm: 0.1,
      turnDegrees: outline.turnDegrees + random.between(-40, 40),
      radiusMm: 0.05,
    };
    const length = size * random.between(1, 3);
    eachTexel(texture, glint, 3 * length, (index, a, b) => {
      add(texture, index, white, strength * Math.exp(-0.5 * ((a / length) ** 2 + (b / size) ** 2) * 4));
    });
  }
}

/** Soft-edged spots where the film over a pad mirrors something bright. */
function addGlare(
  texture: Texture,
  outline: Turned,
  strip: StudioStrip,
  spots: NonNullable<LaidStrip['glare']>,
  white: Colour,
): void {
  for (const { pad, alongMm, acrossMm, sizeMm, strength } of spots) {
    const place = padOutline(outline, strip.pads[pad]!);
    const turn = (outline.turnDegrees * Math.PI) / 180;
    const spot: Turned = {
      ...place,
      xMm: place.xMm + alongMm * Math.cos(turn) - acrossMm * Math.sin(turn),
      yMm: place.yMm + alongMm * Math.sin(turn) + acrossMm * Math.cos(turn),
    };
    eachTexel(texture, spot, 2 * sizeMm, (index, u, v) => {
      add(texture, index, white, strength * (1 - smoothstep(Math.hypot(u, v), 0.7 * sizeMm, 1.3 * sizeMm)));
    });
  }
}
