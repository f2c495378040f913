/** What is said beside a value that came from the reading sheet. */
import type { Measurement } from '../../core/measurement/measurement.ts';
import { unitOf } from '../../core/measurement/quantities.ts';
import { formatInterval, formatMeasured } from '../../words/numbers.ts';

export function aboutHanded({ quantity, low, high, offScale, openAbove, openBelow, method }: Measurement): string {
  if (offScale === 'above') return 'above the strip’s scale';
  if (offScale === 'below') return 'below the strip’s scale';
  const unit = unitOf(quantity);
  const span = openAbove
    ? `${formatMeasured(low, unit)} or more`
    : openBelow
      ? `${formatMeasured(high, unit)} or less`
      : formatInterval(low, high, unit);
  return method === 'photo' ? `from the photo, likely ${span}` : `entered on the reading sheet, likely ${span}`;
}
