import type { Measure } from '../../../src/core/water/measure.ts';
import { convert } from '../../../src/core/water/units.ts';

/** The measured amount back in mL or g. */
export function measured(measure: Measure): number {
  return measure.reduce((sum, { value, unit }) => {
    switch (unit) {
      case 'mL':
      case 'L':
      case 'fl oz':
      case 'gal':
        return sum + convert('volume', value, unit, 'mL');
      default:
        return sum + convert('mass', value, unit, 'g');
    }
  }, 0);
}
