/** What the estimate is given of a season: what was written down, and no more. */
import type { Addition, TrackedPool, TrackEvent } from '../../../src/core/track/events.ts';
import type { Season, SeasonDay } from './simulate.ts';

export const POOL_DOUBT = 0.1;
const Z90 = 1.645;

export function poolOf({ statedLitres }: Season): TrackedPool {
  return { litres: statedLitres, doubt: POOL_DOUBT, fill: {} };
}

/** Mol in a gram. */
const MOLES: Record<string, (grams: number) => Addition['moles']> = {
  acid: (grams) => ({ alkalinity: -grams / 36.458, salt: grams / 36.458 }),
  bicarbonate: (grams) => ({ alkalinity: grams / 84.007 }),
  calcium: (grams) => ({ calcium: grams / 147.01 }),
  stabilizer: (grams) => ({ cyanurate: grams / 129.07 }),
  salt: (grams) => ({ salt: grams / 58.44 }),
};

export function eventsOf({ days, statedLitres }: Season): TrackEvent[] {
  return days.flatMap((day) => [...readings(day), ...dosed(day, statedLitres)]);
}

function readings({ day, strip, dropTest, meter }: SeasonDay): TrackEvent[] {
  const pads = (strip ?? []).map(({ quantity, value, low, high, open }): TrackEvent => {
    const deviation =
      open === 'above' ? (value - low) / Z90 : open === 'below' ? (high - value) / Z90 : (high - low) / (2 * Z90);
    return {
      kind: 'read',
      day,
      quantity,
      value,
      deviation: Math.max(1, deviation),
      sides: [Math.max(1, (value - low) / Z90), Math.max(1, (high - value) / Z90)],
      bound: open,
      method: 'strip',
      sharedVariance: null,
      entry: `${day}`,
    };
  });
  const drops = dropTest.map(({ quantity, value, deviation }): TrackEvent => ({
    kind: 'read',
    day,
    quantity,
    value,
    deviation,
    bound: null,
    method: 'drops',
    sharedVariance: 0.3,
    entry: `${day} drops`,
  }));
  const byMeter = meter.map((one): TrackEvent => {
    const about = { bound: null, method: 'meter', entry: `${day} meter` } as const;
    return { kind: 'read', day, quantity: 'salt', ...one, ...about };
  });
  return [...pads, ...drops, ...byMeter];
}

function dosed({ day, logged, isPure }: SeasonDay, litres: number): TrackEvent[] {
  return logged.map((entry): TrackEvent => {
    if (entry.what === 'water') {
      return { kind: 'exchanged', day: day + 0.1, share: entry.litres / litres, doubt: 0.3, by: 'fill' };
    }
    // A round pool 1.2 m deep.
    if (entry.what === 'rain')
      return { kind: 'exchanged', day: day + 0.1, share: entry.mm / 1200, doubt: 0.5, by: 'rain' };
    const moles = MOLES[entry.what]!(entry.grams);
    const product = isPure ? { id: 'pure salt', doubt: 0.02 } : { id: entry.what, doubt: 0.1 };
    return { kind: 'added', day: day + 0.1, moles, doubt: 0.03, product };
  });
}
