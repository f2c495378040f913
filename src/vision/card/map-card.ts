/** From a card's fiducials to the exact map between card and photo, with the help of the inner marks. */
import { type CardMap, fitBend, type Sighting } from '../../core/card/bend.ts';
import { FIDUCIALS } from '../../core/card/geometry.ts';
import { areaScale, type Homography, type Point, project } from '../../core/card/homography.ts';
import type { Pixels } from '../pixels.ts';
import { pairsOf, type Placement } from './assemble.ts';
import { findMarks } from './marks.ts';

/** Expected errors: of a followed edge's corner or a mark, px; of a corner that is only rough, px; of the print, mm. */
const SHARP_PX = 0.15;
const ROUGH_PX = 1.5;
const PRINT_MM = 0.04;

/** Marks are looked for again once a bent card's map has come nearer to them. */
const ROUNDS = 2;

export interface MappedCard {
  readonly map: CardMap;
  readonly marksSeen: number;
  /** Root mean square, each mark left out of the fit in turn. */
  readonly marksResidualMm: number | null;
}

export function mapCard(photo: Pixels, { toPhoto: homography, seen }: Placement): MappedCard {
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
    const map = fitBend([...corners, ...marks], homography, photo);
    if (round === ROUNDS) return { map, marksSeen: marks.length, marksResidualMm: residualMm(homography, map, marks) };
    toPhoto = map.toPhoto;
  }
}

function sigmaPx(homography: Homography, place: Point, seenPx: number): number {
  return seenPx + PRINT_MM * pxPerMm(homography, place);
}

function pxPerMm(homography: Homography, place: Point): number {
  return Math.sqrt(Math.abs(areaScale(homography, place)));
}

function residualMm(homography: Homography, map: CardMap, marks: readonly Sighting[]): number | null {
  if (marks.length === 0) return null;
  const offs = map.leftOutPx.slice(-marks.length);
  const squares = offs.map((off, i) => (off / pxPerMm(homography, marks[i]!.card)) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / marks.length);
}
