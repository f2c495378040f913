/** Rows of a chart that a scale was taught from already, found again in a photo in another light. */
import type { Triple } from '../../core/colour/lab.ts';
import { matchRows } from '../../core/scale/match.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Row } from './rows.ts';

/** @param labs corrected colours of the rows' blocks */
export function recognised(rows: readonly Row[], labs: readonly (readonly Triple[])[], scale: StripScale): Row[] {
  const known = scale.pads.map(({ blocks }) => blocks.map(({ lab }): Triple => lab));
  return matchRows(labs, known).map((match, i) => {
    const row = rows[i]!;
    if (!match) return row;
    const marks = match.reversed ? row.marks.toReversed() : row.marks;
    return withKnownValues({ ...row, parameter: scale.pads[match.known]!.parameter, marks }, scale);
  });
}

/** Values of the known pad, where the row has as many blocks; none where it hasn't. */
export function withKnownValues(row: Row, scale: StripScale): Row {
  const pad = scale.pads.find(({ parameter }) => parameter === row.parameter);
  const fits = pad?.blocks.length === row.marks.length;
  const marks = row.marks.map((mark, i) => ({ ...mark, value: fits ? String(pad!.blocks[i]!.value) : '' }));
  return { ...row, unit: row.parameter === 'ph' ? 'pH' : 'mg/L', marks };
}

/** How many pads of the scale no row shows with all its blocks. */
export function missingPads(rows: readonly Row[], scale: StripScale): number {
  return scale.pads.filter(({ parameter, blocks }) => {
    const row = rows.find((one) => one.parameter === parameter);
    return row?.marks.length !== blocks.length;
  }).length;
}
