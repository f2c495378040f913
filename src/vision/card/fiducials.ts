/** The card's fiducials in a photo: found by their outlines, or looked for where they should be. */
import { FIDUCIALS } from '../../core/card/geometry.ts';
import { type Point, project } from '../../core/card/homography.ts';
import { isInside, type Photo } from '../pixels.ts';
import { type Placement, printedCorners, type Seen } from './assemble.ts';
import { type Binarisation, binarise } from './binarise.ts';
import { sharpenCorners } from './edges.ts';
import { brightnessAt, type Grey, greyAt } from './grey.ts';
import { identify } from './identify.ts';
import { findOutlines } from './outlines.ts';
import { type Quad, quadOf } from './quads.ts';

/** Every fiducial that one way of telling ink from paper shows. */
export function searchFiducials(photo: Photo, grey: Grey, by: Binarisation): Seen[] {
  return findOutlines(binarise(grey, by), grey).flatMap((outline) => {
    const quad = quadOf(outline);
    const identity = quad && identify(quad, (x, y) => greyAt(grey, x, y));
    if (!identity) return [];
    const rough = identity.corners.map(([x, y]): Point => [x * grey.factor, y * grey.factor]) as unknown as Quad;
    const sharp = sharpenCorners(photo, rough);
    return [{ ...identity, corners: sharp?.corners ?? rough, blurMm: sharp?.blurMm ?? null }];
  });
}

/** Looks for the fiducials a placement lacks, where it says they are. */
export function lookForMissing(photo: Photo, placement: Placement): Seen[] {
  return FIDUCIALS.flatMap((fiducial, index) => {
    if (placement.seen.some((seen) => seen.index === index)) return [];
    const expected = printedCorners(fiducial).map((corner) => project(placement.toPhoto, corner)) as unknown as Quad;
    if (!expected.every((corner) => isInside(photo, corner))) return [];
    const sharp = sharpenCorners(photo, expected);
    const identity = sharp && identify(sharp.corners, (x, y) => brightnessAt(photo, x, y));
    if (!identity || identity.index !== index || identity.mirrored !== placement.mirrored) return [];
    return [{ ...identity, blurMm: sharp.blurMm }];
  });
}
