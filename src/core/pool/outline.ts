/**
 * The outline of a pool seen from above, as what integration along its length needs.
 * All outlines have upright walls; lengths in metres.
 */
export type Outline =
  | { readonly shape: 'round'; readonly diameterM: number }
  /** An ellipse. */
  | { readonly shape: 'oval'; readonly lengthM: number; readonly widthM: number }
  | { readonly shape: 'rectangle'; readonly lengthM: number; readonly widthM: number }
  /** A rectangle whose short ends are half circles; the length is over all. */
  | { readonly shape: 'round-ends'; readonly lengthM: number; readonly widthM: number }
  /** Two lobes of different width and a waist; widths at the lobes' widest. */
  | { readonly shape: 'kidney'; readonly lengthM: number; readonly smallWidthM: number; readonly largeWidthM: number }
  /** Anything else whose surface has been measured. */
  | { readonly shape: 'free-form'; readonly areaM2: number };

/** Area from one end of the pool up to a place along it, and its first moment about that end. */
export interface Along {
  /** m2 */
  area(to: number): number;
  /** m3 */
  moment(to: number): number;
}

/**
 * Share of the box around a kidney's mean width that its outline covers.
 * Common practice, no source: area = 0.45 x (small width + large width) x length.
 */
const KIDNEY_FACTOR = 0.45;

/** Surface of the water, m2. */
export function areaOf(outline: Outline): number {
  switch (outline.shape) {
    case 'round':
      return (Math.PI / 4) * outline.diameterM ** 2;
    case 'oval':
      return (Math.PI / 4) * outline.lengthM * outline.widthM;
    case 'rectangle':
      return outline.lengthM * outline.widthM;
    case 'round-ends':
      return (outline.lengthM - outline.widthM) * outline.widthM + (Math.PI / 4) * outline.widthM ** 2;
    case 'kidney':
      return KIDNEY_FACTOR * (outline.smallWidthM + outline.largeWidthM) * outline.lengthM;
    case 'free-form':
      return outline.areaM2;
  }
}

/**
 * Cumulated area and moment along the pool, places given as a share of its length, 0 to 1.
 * Kidney and free form have no known width along their length: they count as if equally wide all along, so that a
 * share of the length is a share of the area.
 */
export function alongOf(outline: Outline): Along {
  switch (outline.shape) {
    case 'round':
      return ellipse(outline.diameterM, outline.diameterM);
    case 'oval':
      return ellipse(outline.lengthM, outline.widthM);
    case 'round-ends':
      return roundEnds(outline.lengthM, outline.widthM);
    default: {
      const area = areaOf(outline);
      return { area: (to) => area * to, moment: (to) => (area * to ** 2) / 2 };
    }
  }
}

/** Moments are about the near end and in units of the length. */
function ellipse(length: number, width: number): Along {
  const scale = (length * width) / 4;
  return {
    area: (to) => scale * circleArea(2 * to - 1),
    moment: (to) => (scale * (circleArea(2 * to - 1) + circleMoment(2 * to - 1))) / 2,
  };
}

function roundEnds(length: number, width: number): Along {
  const radius = width / 2;
  const end = radius / length;
  const straight = (to: number) => Math.min(1 - end, Math.max(end, to));
  const nearX = (to: number) => Math.min(0, to / end - 1);
  const farX = (to: number) => Math.max(0, (to - (1 - end)) / end);
  return {
    area: (to) =>
      radius ** 2 * (circleArea(nearX(to)) + circleArea(farX(to)) - circleArea(0)) +
      width * length * (straight(to) - end),
    moment: (to) =>
      radius ** 2 *
        (end * (circleArea(nearX(to)) + circleMoment(nearX(to))) +
          (1 - end) * (circleArea(farX(to)) - circleArea(0)) +
          end * (circleMoment(farX(to)) - circleMoment(0))) +
      (width * length * (straight(to) ** 2 - end ** 2)) / 2,
  };
}

/** Area of the unit circle left of `at`, -1 to 1; rounding may take it a hair beyond. */
function circleArea(at: number): number {
  const x = Math.min(1, Math.max(-1, at));
  return x * Math.sqrt(1 - x * x) + Math.asin(x) + Math.PI / 2;
}

/** First moment of that area about the centre. */
function circleMoment(x: number): number {
  return (-2 / 3) * Math.max(0, 1 - x * x) ** 1.5;
}
