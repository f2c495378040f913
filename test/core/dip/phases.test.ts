import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DIP_PHASES, type DipTimes, momentAt, phasesOf } from '../../../src/core/dip/phases.ts';

const ORDINARY: DipTimes = { dipSeconds: 2, readAfterSeconds: 30, readBeforeSeconds: 75 };

const times = fc
  .tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 0, max: 600 }), fc.integer({ min: 1, max: 600 }))
  .map(([dipSeconds, readAfterSeconds, window]): DipTimes => {
    return { dipSeconds, readAfterSeconds, readBeforeSeconds: readAfterSeconds + window };
  });

describe('the phases of a dip', () => {
  it.each([
    [-2, 'dip', 2],
    [-0.01, 'dip', 0.01],
    [0, 'lift', 6],
    [6, 'wait', 24],
    [29.9, 'wait', 0.1],
    [30, 'read', 45],
    [74.9, 'read', 0.1],
    [75, 'past', null],
    [4000, 'past', null],
    [Infinity, 'past', null],
  ] as const)('at %d s it is time to %s, with %d s left', (seconds, phase, left) => {
    const moment = momentAt(ORDINARY, seconds);
    expect(moment.phase).toBe(phase);
    if (left === null) expect(moment.leftSeconds).toBeNull();
    else expect(moment.leftSeconds).toBeCloseTo(left, 9);
  });

  it('leaves out what a scale gives no time to', () => {
    const atOnce = { dipSeconds: 0, readAfterSeconds: 0, readBeforeSeconds: 15 };
    expect(phasesOf(atOnce).map(({ phase }) => phase)).toEqual(['read', 'past']);
    expect(momentAt(atOnce, 0)).toEqual({ phase: 'read', leftSeconds: 15, wholeSeconds: 15 });
  });

  it('leaves half of a short wait for waiting', () => {
    expect(momentAt({ dipSeconds: 1, readAfterSeconds: 4, readBeforeSeconds: 10 }, 2.5).phase).toBe('wait');
  });

  it('never goes back, never shows more than the whole, and shows the window as the scale has it', () => {
    fc.assert(
      fc.property(times, fc.double({ min: -300, max: 2000, noNaN: true }), fc.nat(600), (scale, at, later) => {
        const [one, other] = [momentAt(scale, at), momentAt(scale, at + later)];
        expect(DIP_PHASES.indexOf(other.phase)).toBeGreaterThanOrEqual(DIP_PHASES.indexOf(one.phase));
        if (one.leftSeconds !== null) {
          expect(one.leftSeconds).toBeGreaterThan(0);
          expect(one.leftSeconds).toBeLessThanOrEqual(one.wholeSeconds!);
        }
        expect(one.phase === 'read').toBe(at >= scale.readAfterSeconds && at < scale.readBeforeSeconds);
      }),
      { seed: 5 },
    );
  });

  it('counts the first phase as not begun where the clock was set back', () => {
    expect(momentAt(ORDINARY, -500)).toEqual({ phase: 'dip', leftSeconds: 2, wholeSeconds: 2 });
  });
});
