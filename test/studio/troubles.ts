/**
 * What spoils a photo, one cause at a time and by how much: for tests that look on both sides of a limit, and for
 * the bench that shows what each cause does to readings.
 */
import { CARD_VERSION } from '../../src/core/card/geometry.ts';
import { randomScene } from './random-scene.ts';
import type { Camera, Illumination, LaidStrip, LightSpec, PrintedCard, Scene } from './scene/types.ts';
import type { StudioStrip } from './strips/strips.ts';

/** @param seed of the scene, so that causes fall on different places of it */
export type Change = (scene: Scene, seed: number) => Scene;

const DAY: LightSpec = { kind: 'daylight', cctK: 6800 };
const WARM_LAMP: LightSpec = { kind: 'led', tone: 'warm', shiftNm: 0 };

const lit = (scene: Scene, light: Partial<Illumination>): Scene => ({ ...scene, light: { ...scene.light, ...light } });
const seenBy = (scene: Scene, camera: Partial<Camera>): Scene => ({ ...scene, camera: { ...scene.camera, ...camera } });
const withStrip = (scene: Scene, strip: Partial<LaidStrip>): Scene => ({
  ...scene,
  strip: { ...scene.strip!, ...strip },
});
const withCard = (scene: Scene, card: Partial<PrintedCard>): Scene => ({ ...scene, card: { ...scene.card!, ...card } });

/** Each takes a strength; larger is worse. */
export const TROUBLES = {
  /** Depth of a sharp-edged shadow across the card, 0 to 1. */
  shadow:
    (depth: number): Change =>
    (scene, seed) =>
      lit(scene, {
        shadows: [{ acrossDegrees: (seed * 47) % 360, atMm: ((seed * 13) % 60) - 30, softMm: 3, depth }],
      }),
  /** Fall of the light along the card: half the difference of its ends. */
  fall:
    (slope: number): Change =>
    (scene) =>
      lit(scene, { shading: [slope, 0, 0, 0, 0] }),
  /** Change of a warm lamp's share in daylight along the card. */
  secondLight:
    (rise: number): Change =>
    (scene, seed) =>
      lit(scene, {
        main: DAY,
        second: { light: WARM_LAMP, share: Math.min(0.5, rise / 2), towardsDegrees: seed * 90 + 20, rise },
      }),
  /** Strength of a reflection 3 mm across on one pad. */
  glareSpot:
    (strength: number): Change =>
    (scene, seed) =>
      withGlare(scene, seed, 1.6, strength),
  /** Strength of a reflection that covers a whole pad. */
  glareOver:
    (strength: number): Change =>
    (scene, seed) =>
      withGlare(scene, seed, 4, strength),
  /** Strength of reflections on every pad. */
  glareSpots:
    (strength: number): Change =>
    (scene) =>
      withStrip(scene, {
        glare: scene.strip!.strengths.map((_, pad) => ({ pad, alongMm: 0, acrossMm: 0.4, sizeMm: 1.6, strength })),
      }),
  /** Linear level of paper: above 1 it is clipped. */
  exposure:
    (level: number): Change =>
    (scene) =>
      seenBy(scene, { exposure: level }),
  /** Darkness: one over the linear level of paper. */
  dark:
    (times: number): Change =>
    (scene) =>
      seenBy(scene, { exposure: 1 / times }),
  /** Standard deviation of the blur, px of a picture 1200 px wide. */
  blur:
    (px: number): Change =>
    (scene) =>
      seenBy(scene, { blurPx: (px * scene.widthPx) / 1200 }),
  /** Dye of one pad against what its maker intends. */
  badDye:
    (times: number): Change =>
    (scene, seed) =>
      withStrip(scene, {
        strengths: scene.strip!.strengths.map((one, i) =>
          i === seed % scene.strip!.strengths.length ? times * one : one,
        ),
      }),
  /** How much of large contrasts the phone evens out. */
  localTone:
    (share: number): Change =>
    (scene) =>
      seenBy(scene, { localTone: share }),
  filter:
    (filter: Camera['filter']): Change =>
    (scene) =>
      seenBy(scene, filter ? { filter } : {}),
  /** Share of the strip that water never reached. */
  dry:
    (share: number): Change =>
    (scene) =>
      withStrip(scene, { dry: share, glints: 0 }),
  otherVersion: (): Change => (scene) => withCard(scene, { version: CARD_VERSION + 1 }),
  /** The photo shown by a screen, and taken again. */
  onScreen:
    (pitchMm: number): Change =>
    (scene) => ({
      ...scene,
      card: null,
      strip: null,
      screen: {
        shows: scene,
        kind: 'lcd',
        widthMm: 148 / scene.view.cardFill,
        pitchMm,
        white: 1,
        black: 0.001,
        reflection: 0.01,
      },
      view: { ...scene.view, rollDegrees: 3, tiltDegrees: 8, cardFill: 0.9, offset: [0, 0] },
      table: { ...scene.table, clutter: [] },
    }),
  /** How far a finger's tip comes down over the upper row of greys, mm from the card's top edge. */
  finger:
    (yMm: number): Change =>
    (scene) => ({ ...scene, covers: [{ kind: 'finger', xMm: 67, yMm, turnDegrees: -90 }] }),
  faceDown: (): Change => (scene) => withStrip(scene, { faceDown: true }),
  blackOnly: (): Change => (scene) => withCard(scene, { variant: 'black' }),
  none: (): Change => (scene) => scene,
} as const;

function withGlare(scene: Scene, seed: number, sizeMm: number, strength: number): Scene {
  const pad = seed % scene.strip!.strengths.length;
  const glare = [{ pad, alongMm: ((seed * 7) % 3) - 1, acrossMm: ((seed * 5) % 3) - 1, sizeMm, strength }];
  return withStrip(scene, { glare });
}

/** An everyday scene with a colour card, and one thing wrong with it. */
export function troubledScene(seed: number, strip: StudioStrip, change: Change, widthPx = 1000): Scene {
  const scene = randomScene(seed, 'everyday', strip, { widthPx, heightPx: (3 * widthPx) / 4 });
  const plain = lit(withCard(scene, { variant: 'colour' }), { second: null, shadows: [] });
  return change(plain, seed);
}
