/** The colour map beside greys alone and a matrix, on photos of a 24-patch chart. */
import type { Pair } from '../../../src/core/colour/anchors.ts';
import { fitColourMap } from '../../../src/core/colour/colour-map.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import type { Row } from '../../reference/read-table.ts';
import { fitMap } from '../matrix-map.ts';
import { type ChartPhoto, correctedBy, editionsIn, LAST_COLOUR, type Patches, photosIn } from './charts.ts';

const KINDS = {
  greys: () => (linear: Triple) => linear,
  linear: (pairs: readonly Pair[]) => fitMap('linear', pairs),
  map: (pairs: readonly Pair[]) => fitColourMap(pairs, []).apply,
} as const;
/** Photos of one letter that each show a chart of their own, by the table's notes. */
const OTHER_CHARTS = ['V', 'X'];
type Kind = keyof typeof KINDS;
const KIND_NAMES = Object.keys(KINDS) as Kind[];
type Errors = Record<Kind, number[]>;

interface Figures {
  readonly mean: number;
  readonly p95: number;
}

export type Line = { readonly group: string; readonly pairs: number } & Readonly<Record<Kind, Figures>>;

/**
 * @returns a line for each chart that was photographed more than once, photo to photo, and one for all photos against the
 *   published colours; CIEDE2000, each colour patch left out of the fit in turn
 */
export function compareOn(photoRows: readonly Row[], editionRows: readonly Row[]): Line[] {
  const editions = [...editionsIn(editionRows).values()];
  const photos = photosIn(photoRows);
  const groups = [...new Set(photos.map(({ group }) => group))];
  const lines: Line[] = [];
  const published = noErrors();
  let count = 0;
  for (const group of groups) {
    const members = photos.filter((photo) => photo.group === group);
    const edition = nearestEdition(members, editions);
    const seen = members.flatMap((photo) => correctedBy(photo, edition) ?? []);
    count += seen.length;
    for (const from of seen) add(published, from, edition);
    if (seen.length < 2 || OTHER_CHARTS.includes(group)) continue;
    const errors = noErrors();
    for (const from of seen) for (const to of seen) if (from !== to) add(errors, from, to);
    lines.push({ group, pairs: seen.length * (seen.length - 1), ...figuresOf(errors) });
  }
  return [...lines, { group: 'published', pairs: count, ...figuresOf(published) }];
}

function noErrors(): Errors {
  return { greys: [], linear: [], map: [] };
}

/** Each colour patch under a map that was fitted without it; the greys take part in the fit but aren't judged by. */
function add(errors: Errors, from: Patches, to: Patches): void {
  const shared = [...from].flatMap(([patch, linear]) => {
    const other = to.get(patch);
    return other ? [{ patch, from: linear, to: other }] : [];
  });
  for (const judged of shared) {
    if (judged.patch > LAST_COLOUR) continue;
    const rest = shared.filter((one) => one !== judged);
    for (const kind of KIND_NAMES) {
      errors[kind].push(ciede2000(linearToLab(KINDS[kind](rest)(judged.from)), linearToLab(judged.to)));
    }
  }
}

/** The edition of the chart that the group's photos lie nearest by the greys alone. */
function nearestEdition(members: readonly ChartPhoto[], editions: readonly Patches[]): Patches {
  const distance = (edition: Patches) => {
    const errors = noErrors();
    for (const photo of members) {
      const seen = correctedBy(photo, edition);
      for (const [patch, linear] of seen ?? []) {
        errors.greys.push(ciede2000(linearToLab(linear), linearToLab(edition.get(patch)!)));
      }
    }
    return mean(errors.greys);
  };
  return editions.reduce((best, one) => (distance(one) < distance(best) ? one : best));
}

function figuresOf(errors: Errors): Record<Kind, Figures> {
  const figures = KIND_NAMES.map((kind) => [
    kind,
    { mean: rounded(mean(errors[kind])), p95: rounded(p95(errors[kind])) },
  ]);
  return Object.fromEntries(figures) as Record<Kind, Figures>;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function p95(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[Math.floor(0.95 * values.length)] ?? Number.NaN;
}

function rounded(value: number): number {
  return Number(value.toFixed(2));
}
