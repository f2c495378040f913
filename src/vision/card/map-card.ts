/** From a card's fiducials to the exact map between card and photo, with the help of the inner marks. */
import { type CardMap, fitBend, type Sighting } from '../../core/card/bend.ts';
import { FIDUCIALS } from '../../core/card/geometry.ts';
import { areaScale, type Homography, type Point, project } from '../../core/card/homography.ts';
import type { Photo } from '../pixels.ts';
import { pairsOf, type Placement } from './assemble.ts';
import { findMarks } from './marks.ts';

/** Expected errors: of a followed edge's corner or a mark, px; of a corner that is only rough, px; of the print, mm. */
const SHARP_PX = 0.15;
const ROUGH_PX = 1.5;
const PRINT_MM = 0.04;

/** Marks are looked for again once a bent card's map has come nearer to them. */
const ROUNDS = 2;

/** A mark is an outlier when its error is this many times the median mark's, and this large. */
const OUTLIER = 4;
const MIN_OUTLIER_MM = 0.15;
const MIN_MARKS = 6;

export interface MappedCard {
  readonly map: CardMap;
  readonly marksSeen: number;
  /** Root mean square, each mark left out of the fit in turn. */
  readonly marksResidualMm: number | null;
}

export function mapCard(photo: Photo, { toPhoto: homography, seen }: Placement): MappedCard {
  const corners = seen.flatMap((fiducial): Sighting[] =>
    pairsOf(fiducial).map(({ from, to }) => ({
      card: from,
      photo: to,
      sigmaPx: sigmaPx(homography, from, fiducial.blurMm === null ? ROUGH_PX : SHARP_PX),
      group: FIDUCIALS[fiducial.index]!.id,
    })),
  );
  let toPhoto = (xMm: number, yMm: number): Point => project(homography, [xMm, yMm]);
  for (let round = 1; ; round++) {
    const marks = findMarks(photo, toPhoto).map(({ mark, xMm, yMm }): Sighting => {
      const card: Point = [mark.xMm, mark.yMm];
      return { card, photo: toPhoto(xMm, yMm), sigmaPx: sigmaPx(homography, card, SHARP_PX), group: mark.id };
    });
    const fit = fitTrusted(corners, marks, homography, photo);
    if (round === ROUNDS || fit.map.model === 'flat') {
      return { map: fit.map, marksSeen: fit.offsMm.length, marksResidualMm: rootMeanSquare(fit.offsMm) };
    }
    toPhoto = fit.map.toPhoto;
  }
}

interface TrustedFit {
  readonly map: CardMap;
  /** Of each mark used, its error when left out of the fit. */
  readonly offsMm: readonly number[];
}

/** Fits, leaving out marks that stand out from the others: half hidden, or mistaken for something else. */
function fitTrusted(
  corners: readonly Sighting[],
  marks: readonly Sighting[],
  homography: Homography,
  photo: Photo,
): TrustedFit {
  let used = marks;
  for (;;) {
    const map = fitBend([...corners, ...used], homography, photo);
    const offsMm = used.map((mark, i) => map.leftOutPx[corners.length + i]! / pxPerMm(homography, mark.card));
    const worst = offsMm.reduce((max, off, i) => (off > offsMm[max]! ? i : max), 0);
    const sorted = [...offsMm].sort((one, other) => one - other);
    const limit = Math.max(MIN_OUTLIER_MM, OUTLIER * (sorted[sorted.length >> 1] ?? 0));
    if (used.length <= MIN_MARKS || offsMm[worst]! <= limit) return { map, offsMm };
    used = used.filter((_, i) => i !== worst);
  }
}

function sigmaPx(homography: Homography, place: Point, seenPx: number): number {
  return seenPx + PRINT_MM * pxPerMm(homography, place);
}

function pxPerMm(homography: Homography, place: Point): number {
  return Math.sqrt(Math.abs(areaScale(homography, place)));
}

function rootMeanSquare(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
