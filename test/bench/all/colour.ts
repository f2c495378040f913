/** The colour difference, and placing a pad by it, against general-purpose colour libraries. */
import { deltaE2000, Lab } from 'colorjs.io/fn';
import { differenceCiede2000 } from 'culori/fn';
import { loadScale, practiceScaleIds } from '../../../src/cli/scales.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { nearestOn, placeOnCurve, placePad, type PadView } from '../../../src/core/reading/place.ts';
import { curveThrough, type ScaleCurve } from '../../../src/core/scale/curve.ts';
import { randomFrom } from '../../vision/pictures.ts';
import { figure, type Section, type Table, verdict } from './section.ts';
import { inTurns } from './timing.ts';

const PAIRS = 100_000;
const MAX_APART = 1e-6;
const ROUNDS = 9;
const PADS = 400;
/** Standard deviation of the pads' colours, CIEDE2000. */
const SIGMA = 1;
const MAX_PAD_MILLIS = 0.2;
/** What blocks may be off by under another light, once corrected: a guess at its size, for the time alone. */
const OTHER_LIGHT: Triple = [1, 0.5, 3];

type Difference = (one: Triple, two: Triple) => number;
interface Pad {
  readonly lab: Triple;
  readonly curve: ScaleCurve;
  /** As of a scale taught under two lights. */
  readonly views: readonly PadView[];
}

const culoriDifference = differenceCiede2000();
const culori: Difference = (one, two) =>
  culoriDifference(
    { mode: 'lab65', l: one[0], a: one[1], b: one[2] },
    { mode: 'lab65', l: two[0], a: two[1], b: two[2] },
  );
/* The formula knows no white point; colorjs.io takes the numbers untouched only in its own Lab. */
const colorjs: Difference = (one, two) =>
  deltaE2000({ space: Lab, coords: [...one], alpha: 1 }, { space: Lab, coords: [...two], alpha: 1 });

export async function colourSection(): Promise<Section> {
  const pairs = randomPairs();
  const apart = Math.max(mostApart(pairs, culori), mostApart(pairs, colorjs));
  if (!(apart <= MAX_APART)) throw new Error(`the libraries differ by ${apart} on the same pairs`);
  const [ours, theirs, others] = inTurns(
    [ciede2000, culori, colorjs].map((difference) => () => sumOver(pairs, difference)),
    ROUNDS,
  ) as [number, number, number];
  const pads = await randomPads();
  const [placing, twice, nearest, searching, elsewhere] = inTurns(
    [
      () => pads.forEach(({ lab, curve }) => placeOnCurve(lab, curve, SIGMA)),
      () => pads.forEach(({ views, curve }) => placePad(views, curve, SIGMA)),
      () => pads.forEach(({ lab, curve }) => nearestOn(curve, lab)),
      () => pads.forEach((pad) => plainSearch(pad, culori)),
      () => pads.forEach((pad) => plainSearch(pad, colorjs)),
    ],
    ROUNDS,
  ).map((millis) => millis / pads.length) as [number, number, number, number, number];
  return {
    tables: [
      differenceTable(apart, { ours, theirs, others }),
      placingTable({ placing, twice, nearest, searching, elsewhere }),
    ],
    ratios: [
      { name: 'CIEDE2000 / culori’s', ratio: ours / theirs, wanted: null },
      { name: 'CIEDE2000 / colorjs.io’s', ratio: ours / others, wanted: null },
      { name: 'placing a pad / the search with culori', ratio: placing / searching, wanted: null },
      { name: 'placing a pad / 0.2 ms', ratio: placing / MAX_PAD_MILLIS, wanted: 1 },
      { name: 'the same, two lights / 0.2 ms', ratio: twice / MAX_PAD_MILLIS, wanted: 1 },
    ],
  };
}

function differenceTable(apart: number, millis: Record<'ours' | 'theirs' | 'others', number>): Table {
  const row = (name: string, taken: number) => [
    name,
    figure(taken),
    figure((taken * 1e6) / PAIRS),
    figure(millis.ours / taken),
  ];
  return {
    title: 'CIEDE2000',
    about:
      `${PAIRS} random pairs over all of Lab, medians of ${ROUNDS}; the three agree on them to ` +
      `${apart.toExponential(0)}. Ours hands culori's its colours, so it is the same formula behind one more call.`,
    head: ['by', 'ms for all', 'ns a pair', 'ours over it'],
    rows: [row('ours', millis.ours), row('culori', millis.theirs), row('colorjs.io', millis.others)],
  };
}

function placingTable(millis: Record<'placing' | 'twice' | 'nearest' | 'searching' | 'elsewhere', number>): Table {
  const row = (name: string, taken: number, wanted: number | null) => [
    name,
    figure(taken),
    figure(millis.placing / taken),
    ...verdict(taken, wanted, 'ms'),
  ];
  return {
    title: 'Placing a pad on its scale',
    about:
      `${PADS} random pads beside the practice scales, medians of ${ROUNDS}. The plain search looks every 0.25 ` +
      `CIEDE2000 along the same curve for the nearest colour, without interval and without refining.`,
    head: ['what', 'ms a pad', 'placing over it', 'wanted', 'is'],
    rows: [
      row('value, interval and second stretch', millis.placing, MAX_PAD_MILLIS),
      row('the same on a scale taught under two lights', millis.twice, MAX_PAD_MILLIS),
      row('the nearest place alone, ours', millis.nearest, null),
      row('plain search with culori’s difference', millis.searching, null),
      row('plain search with colorjs.io’s difference', millis.elsewhere, null),
    ],
  };
}

function randomPairs(): [Triple, Triple][] {
  const random = randomFrom(2000);
  const lab = (): Triple => [100 * random(), 200 * random() - 100, 200 * random() - 100];
  return Array.from({ length: PAIRS }, () => [lab(), lab()]);
}

function mostApart(pairs: readonly [Triple, Triple][], other: Difference): number {
  return pairs.reduce((most, [one, two]) => Math.max(most, Math.abs(ciede2000(one, two) - other(one, two))), 0);
}

function sumOver(pairs: readonly [Triple, Triple][], difference: Difference): number {
  let sum = 0;
  for (const [one, two] of pairs) sum += difference(one, two);
  return sum;
}

/** Colours near the curves of all practice scales' pads, as photos give them. */
async function randomPads(): Promise<Pad[]> {
  const random = randomFrom(65);
  const scales = await Promise.all(practiceScaleIds().map((id) => loadScale(id)));
  const taught = scales.flatMap(({ pads }) => pads.map((pad) => ({ pad, curve: curveThrough(pad) })));
  return Array.from({ length: PADS }, (_, i) => {
    const { pad, curve } = taught[i % taught.length]!;
    const [l, a, b] = curve.labAt(random() * curve.length);
    const off = () => SIGMA * (2 * random() - 1);
    const lab: Triple = [l + off(), a + off(), b + off()];
    const blocks = pad.blocks.map((block) => ({ ...block, lab: shifted(block.lab) }));
    const other = { lab: shifted(lab), curve: curveThrough({ ...pad, blocks }), weight: 0.5 };
    return { lab, curve, views: [{ lab, curve: curveThrough(pad), weight: 0.5 }, other] };
  });
}

function shifted(lab: Triple): [number, number, number] {
  return [lab[0] + OTHER_LIGHT[0], lab[1] + OTHER_LIGHT[1], lab[2] + OTHER_LIGHT[2]];
}

/** As far beyond the ends as the reader looks, and as finely. */
const [BEYOND, STEP] = [12, 0.25];

function plainSearch({ lab, curve }: Pad, difference: Difference): number {
  const count = Math.ceil((curve.length + 2 * BEYOND) / STEP);
  let [nearest, least] = [0, Infinity];
  for (let i = 0; i <= count; i++) {
    const position = -BEYOND + (i * (curve.length + 2 * BEYOND)) / count;
    const deltaE = difference(lab, curve.labAt(position));
    if (deltaE < least) [nearest, least] = [position, deltaE];
  }
  return nearest;
}
