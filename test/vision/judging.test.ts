/**
 * Every judgement about a simulated photo, from both sides of its limit: a picture that brings it about, and one just
 * inside that doesn't. `npm run doubts` shows what each trouble does to readings, and so why the limits are where
 * they are.
 */
import { describe, expect, it } from 'vitest';
import { loadScale } from '../../src/cli/scales.ts';
import type { Reading, RefusalCode, WarningCode } from '../../src/core/reading/reading.ts';
import { readPhoto } from '../../src/vision/read.ts';
import { renderThroughJpeg } from '../studio/render.ts';
import { GARDEN_FOUR, PRACTICE_FIVE, PRACTICE_FOUR, type StudioStrip } from '../studio/strips/strips.ts';
import { type Change, troubledScene, TROUBLES } from '../studio/troubles.ts';

interface Shot {
  readonly change: Change;
  readonly strip?: StudioStrip;
  readonly seed?: number;
  readonly widthPx?: number;
}

interface Pair {
  readonly code: RefusalCode | WarningCode;
  readonly brings: Shot;
  readonly inside: Shot;
  /** Whether the code says where on the card it lies. */
  readonly placed?: boolean;
}

const T = TROUBLES;
const SOUND: Shot = { change: T.none() };
const REFUSALS: readonly Pair[] = [
  { code: 'blurred', brings: { change: T.blur(5) }, inside: { change: T.blur(3) } },
  { code: 'too-dark', brings: { change: T.dark(24) }, inside: { change: T.dark(6) } },
  { code: 'blown-out', brings: { change: T.exposure(1.6) }, inside: { change: T.exposure(0.85) } },
  {
    code: 'deep-shadow',
    brings: { change: T.shadow(0.75), seed: 6008 },
    inside: { change: T.shadow(0.4), seed: 6008 },
    placed: true,
  },
  {
    code: 'glare-over-pads',
    brings: { change: T.glareSpots(0.6) },
    inside: { change: T.glareSpot(0.6) },
    placed: true,
  },
  {
    code: 'two-lights',
    brings: { change: T.secondLight(1.2), seed: 6008 },
    inside: { change: T.secondLight(0.6), seed: 6008 },
  },
  { code: 'no-colour', brings: { change: T.filter('grey') }, inside: { change: T.filter('faded') } },
  { code: 'strip-face-down', brings: { change: T.faceDown() }, inside: SOUND },
  {
    code: 'pads-dry',
    brings: { change: T.dry(1), strip: PRACTICE_FIVE },
    inside: { change: T.none(), strip: PRACTICE_FIVE },
  },
  { code: 'strip-mismatch', brings: { change: T.none(), strip: GARDEN_FOUR }, inside: SOUND },
  { code: 'card-other-version', brings: { change: T.otherVersion() }, inside: SOUND },
  {
    code: 'on-a-screen',
    // A screen's pixels are two to three of the camera's.
    brings: { change: T.onScreen(0.5), widthPx: 1400 },
    inside: { change: T.none(), widthPx: 1400 },
  },
];

const WARNINGS: readonly Pair[] = [
  { code: 'uneven-light', brings: { change: T.fall(0.4) }, inside: { change: T.fall(0.1) } },
  { code: 'shadow-edge', brings: { change: T.shadow(0.35) }, inside: { change: T.shadow(0.08) }, placed: true },
  {
    code: 'mixed-light',
    brings: { change: T.secondLight(0.8), seed: 6005 },
    inside: { change: T.secondLight(0.2), seed: 6005 },
  },
  { code: 'glare-on-pad', brings: { change: T.glareSpot(0.6) }, inside: { change: T.glareSpot(0.05) }, placed: true },
  { code: 'pad-clipped', brings: { change: T.exposure(0.95) }, inside: { change: T.exposure(0.8) }, placed: true },
  { code: 'colour-filter', brings: { change: T.filter('loud') }, inside: SOUND },
  { code: 'perhaps-dry', brings: { change: T.dry(0.8) }, inside: { change: T.dry(0.65) } },
  {
    code: 'poor-fit',
    brings: { change: T.finger(30), seed: 6003 },
    inside: { change: T.finger(22), seed: 6003 },
  },
  { code: 'pad-unmatched', brings: { change: T.badDye(3) }, inside: { change: T.badDye(1.2) }, placed: true },
  { code: 'black-only-card', brings: { change: T.blackOnly() }, inside: SOUND },
];

describe('judging a photo', () => {
  const seen = new Map<Shot, Promise<Reading>>();

  /** Each once. */
  function read(shot: Shot): Promise<Reading> {
    const reading = seen.get(shot) ?? take(shot);
    seen.set(shot, reading);
    return reading;
  }

  async function take({ change, strip = PRACTICE_FOUR, seed = 6002, widthPx }: Shot): Promise<Reading> {
    const scale = await loadScale(strip === GARDEN_FOUR ? PRACTICE_FOUR.id : strip.id);
    return readPhoto(await renderThroughJpeg(troubledScene(seed, strip, change, widthPx)), scale).reading;
  }

  it.each(REFUSALS)('refuses: $code, and not just inside', async ({ code, brings, inside, placed }) => {
    const refused = await read(brings);
    expect(refused).toMatchObject({ outcome: 'refused', reasons: expect.arrayContaining([code]) });
    if (placed) expect(refused.places.map((place) => place.code)).toContain(code);
    const other = await read(inside);
    expect(other.outcome, JSON.stringify(other)).toBe('read');
  });

  it.each(WARNINGS)('warns: $code, and not just inside', async ({ code, brings, inside, placed }) => {
    const warned = await read(brings);
    expect(warned).toMatchObject({ outcome: 'read', warnings: expect.arrayContaining([code]) });
    if (placed) expect(warned.places.map((place) => place.code)).toContain(code);
    const other = await read(inside);
    expect(other.outcome === 'read' && other.warnings, JSON.stringify(other)).not.toContain(code);
  });
});
