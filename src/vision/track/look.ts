/** A look at one frame of the preview: where the card is, and, when asked, how light and strip are. */
import type { CloseLook, Corners, Glimpse, SeenCard } from '../../core/capture/glimpse.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, NEUTRALS, PAPER_PATCHES, SLOT } from '../../core/card/geometry.ts';
import { areaScale, type Homography, type Point, project } from '../../core/card/homography.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { assemble, type Placement } from '../card/assemble.ts';
import type { Binarisation } from '../card/binarise.ts';
import { lookForMissing, searchFiducials } from '../card/fiducials.ts';
import { shrinkToGrey } from '../card/grey.ts';
import type { CardCodes } from '../card-codes.ts';
import { flatten } from '../flatten.ts';
import type { Pixels } from '../pixels.ts';
import { sampleFlat } from '../open-card.ts';
import { findStrip } from '../strip/find-strip.ts';
import { padQuads } from '../strip/places.ts';
import { whyNothingFound } from '../whole-picture.ts';
import { isGlaring } from './glare.ts';

/** Fewer passes than for a photo: another frame comes soon. */
export const PASSES: readonly Binarisation[] = [
  { method: 'local', window: 0.03, offset: 8, smoothPx: 0 },
  { method: 'local', window: 0.07, offset: 5, smoothPx: 1.4 },
];
const MIN_FIDUCIALS = 3;

/**
 * @param frame shrunk: 640 px along its long side are enough
 * @param isClose also look at light, strip and glare, which takes several times as long
 */
export function lookAt(frame: Pixels, scale: StripScale, isClose: boolean): Glimpse {
  const { widthPx, heightPx } = { widthPx: frame.width, heightPx: frame.height };
  const { placement, isPartSeen } = findPlacement(frame);
  if (!placement) {
    return { widthPx, heightPx, card: null, isPartSeen, frame: whyNothingFound(frame), close: null };
  }
  const close = isClose ? lookClosely(frame, placement, scale) : null;
  return { widthPx, heightPx, card: describe(placement), isPartSeen: false, frame: null, close };
}

function findPlacement(frame: Pixels): { placement: Placement | null; isPartSeen: boolean } {
  const grey = shrinkToGrey(frame, 1);
  let isPartSeen = false;
  for (const by of PASSES) {
    const seen = searchFiducials(frame, grey, by);
    isPartSeen ||= seen.some(({ wrongCells }) => wrongCells === 0);
    let best = assemble(seen)[0];
    if (best && best.seen.length < 4) best = assemble([...seen, ...lookForMissing(frame, best)])[0];
    if (best && best.seen.length >= MIN_FIDUCIALS) return { placement: best, isPartSeen };
  }
  return { placement: null, isPartSeen };
}

const MIDDLE: Point = [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2];
const OUTLINE: Corners = [
  [0, 0],
  [CARD_WIDTH_MM, 0],
  [CARD_WIDTH_MM, CARD_HEIGHT_MM],
  [0, CARD_HEIGHT_MM],
];

function describe({ toPhoto, seen }: Placement): SeenCard {
  const blurs = seen.flatMap(({ blurMm }) => blurMm ?? []).sort((one, other) => one - other);
  return {
    corners: OUTLINE.map((corner) => project(toPhoto, corner)) as unknown as Corners,
    pxPerMm: pxPerMm(toPhoto),
    tiltDegrees: tiltDegrees(toPhoto),
    blurMm: blurs[blurs.length >> 1] ?? null,
  };
}

function pxPerMm(toPhoto: Homography): number {
  return Math.sqrt(Math.abs(areaScale(toPhoto, MIDDLE)));
}

/**
 * A plane leaned back by an angle is foreshortened by its cosine: across the lean lengths keep their scale, along it
 * they lose it. The two scales are the singular values of the map's derivative at the card's middle.
 */
function tiltDegrees(toPhoto: Homography): number {
  const step = 1;
  const at = (dx: number, dy: number) => project(toPhoto, [MIDDLE[0] + dx, MIDDLE[1] + dy]);
  const [right, left, down, up] = [at(step, 0), at(-step, 0), at(0, step), at(0, -step)];
  const [a, b] = [(right[0] - left[0]) / (2 * step), (down[0] - up[0]) / (2 * step)];
  const [c, d] = [(right[1] - left[1]) / (2 * step), (down[1] - up[1]) / (2 * step)];
  const sum = Math.hypot(a + d, c - b);
  const difference = Math.hypot(a - d, b + c);
  const [largest, least] = [(sum + difference) / 2, Math.abs(sum - difference) / 2];
  return (Math.acos(Math.min(1, least / largest)) * 180) / Math.PI;
}

/** A strip may lie over the slot's edge by so much. */
const BESIDE_SLOT_MM = 8;

const LOOKED_AT = [
  ...NEUTRALS,
  ...PAPER_PATCHES,
  {
    xMm: SLOT.xMm - BESIDE_SLOT_MM,
    yMm: SLOT.yMm - BESIDE_SLOT_MM,
    widthMm: SLOT.widthMm + 2 * BESIDE_SLOT_MM,
    heightMm: SLOT.heightMm + 2 * BESIDE_SLOT_MM,
  },
];

/** Of a frame, only the greys are looked at. */
const GREYS_ONLY: CardCodes = { version: null, variant: 'black', printMark: null };

function lookClosely(frame: Pixels, { toPhoto }: Placement, scale: StripScale): CloseLook {
  const view = { toPhoto: (xMm: number, yMm: number) => project(toPhoto, [xMm, yMm]), pxPerMm: pxPerMm(toPhoto) };
  const flat = flatten(frame, view, LOOKED_AT);
  const strip = findStrip(flat, scale);
  const light = asLight(sampleFlat(flat, GREYS_ONLY, null).exposure);
  if (!strip.found) return { light, strip: strip.reason, pads: [], glarePads: [] };
  const quads = padQuads(strip.pose, scale);
  return {
    light,
    strip: 'found',
    pads: quads.map((quad) => quad.map((place) => project(toPhoto, place)) as unknown as Corners),
    glarePads: quads.flatMap((quad, i) => (isGlaring(flat, quad) ? i : [])),
  };
}

function asLight(code: ReturnType<typeof sampleFlat>['exposure']): CloseLook['light'] {
  return code === 'too-dark' || code === 'blown-out' ? code : null;
}
