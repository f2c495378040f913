/** How long the pump takes to move the pool's water once, and how much of it has been through the filter by then. */

/**
 * Share of a pump's rated flow that real plumbing lets through: pipes, bends, filter and heater take the rest.
 * Common practice, no source; the filter's own flow gauge is better.
 */
export const DERATING = { low: 0.5, value: 0.7, high: 0.9 } as const;

export interface Flow {
  readonly litresPerHour: number;
  /** 'measured' at a flow meter, or the 'rated' figure of the pump's plate. */
  readonly basis: 'measured' | 'rated';
}

/** L/h that most likely come through. */
export function likelyFlow({ litresPerHour, basis }: Flow): number {
  return litresPerHour * (basis === 'measured' ? 1 : DERATING.value);
}

export interface Turnover {
  readonly hours: number;
  /** Span from the derating; equal to `hours` where the flow was measured. */
  readonly lowHours: number;
  readonly highHours: number;
}

/** @param volumeLitres more than 0 */
export function turnover(volumeLitres: number, flow: Flow): Turnover {
  const hours = volumeLitres / flow.litresPerHour;
  if (flow.basis === 'measured') return { hours, lowHours: hours, highHours: hours };
  return { hours: hours / DERATING.value, lowHours: hours / DERATING.high, highHours: hours / DERATING.low };
}

/**
 * Share of the water that has passed the filter at least once after some turnovers, if the pool mixes perfectly:
 * 1 - exp(-turnovers). Cited for pools as Gage & Bidwell 1926 (from memory, unverified); the exponential is exact.
 */
export function filteredShare(turnovers: number): number {
  return -Math.expm1(-turnovers);
}
