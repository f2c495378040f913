/** Green or cloudy water: what hands, brush and filter do before chemistry. Words only. */
import { NOTHING, type Context, type Draft, type Drafted } from '../draft.ts';

export function cleanStep({ input: { look } }: Context): Drafted {
  if (look.water !== 'green' && look.water !== 'cloudy') return NOTHING;
  const draft: Draft = {
    id: 'clean',
    kind: 'clean',
    moves: [],
    apply: (cases) => cases,
    parts: 1,
    how: null,
    circulateMinutes: 24 * 60,
    notes: ['remove-debris', 'brush-and-vacuum', 'filter-round-the-clock', 'clean-filter-when-pressure-rises'],
    cautions: ['see-the-bottom'],
    why: [],
  };
  return { drafts: [draft], holds: [] };
}
