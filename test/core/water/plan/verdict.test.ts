import { describe, expect, it } from 'vitest';
import { plain, plan, reading } from './inputs.ts';

const verdictOf = (change: Parameters<typeof plain>[0]) => plan(plain(change)).verdict;

/** Less than any limit of a label, and more than a twentieth of the stabilizer. */
const THREE = { readings: { 'free-chlorine': reading(3, 0.2), 'total-chlorine': reading(3, 0.2) } };

describe('fit to swim', () => {
  it('never says safe: at best nothing measured speaks against it, and names what was not measured', () => {
    expect(verdictOf(THREE)).toEqual({
      swim: 'no-objection',
      reasons: [],
      notMeasured: [],
      onlyIfBottomVisible: false,
    });
    expect(verdictOf({ ...THREE, without: ['salt', 'total-chlorine'] }).notMeasured).toEqual([
      'total-chlorine',
      'salt',
    ]);
    expect(verdictOf({ ...THREE, look: {} })).toMatchObject({ swim: 'no-objection', onlyIfBottomVisible: true });
  });

  // Limits: CDC Model Aquatic Health Code (2018, trade report): 1 or, with stabilizer, 2 to 10 mg/L; Montana rule for
  // clarity and 40 °C; pH 8.0: the same code, 6.6.3.1; pH 7.0 and 1 mg/L of combined chlorine: common practice, no source.
  it.each([
    ['chlorine-too-low', { readings: { 'free-chlorine': reading(1.5, 0.2) }, without: ['total-chlorine'] }],
    ['chlorine-above-limit', { readings: { 'free-chlorine': reading(12, 1) }, without: ['total-chlorine'] }],
    [
      'chlorine-above-limit',
      { readings: { 'free-chlorine': { value: 10, offScale: 'above' } }, without: ['total-chlorine'] },
    ],
    ['ph-too-low', { readings: { ph: reading(6.8, 0.1) } }],
    ['ph-too-high', { readings: { ph: reading(8.2, 0.1) } }],
    ['bottom-not-visible', { look: { water: 'cloudy', bottomVisible: false } }],
    ['green-water', { look: { water: 'green' } }],
    ['too-hot', { readings: { temperature: reading(42, 1) } }],
  ] as const)('stay out: %s', (reason, change) => {
    const verdict = verdictOf(change as never);
    expect(verdict.swim).toBe('stay-out');
    expect(verdict.reasons).toContain(reason);
  });

  it.each([
    ['ph-outside-code', { readings: { ph: reading(7.9, 0.05) } }],
    ['ph-outside-code', { readings: { ph: reading(8.1, 0.2) } }],
    ['chlorine-low-for-stabilizer', { readings: { 'cyanuric-acid': reading(100, 5) } }],
    ['combined-too-high', { readings: { 'total-chlorine': reading(5.5, 0.2) } }],
  ] as const)('correct first: %s', (reason, change) => {
    const verdict = verdictOf(change);
    expect(verdict.swim).toBe('correct-first');
    expect(verdict.reasons).toContain(reason);
  });

  it.each([
    ['chlorine-maybe-low', { readings: { 'free-chlorine': reading(2.2, 0.5) }, without: ['total-chlorine'] }],
    ['chlorine-maybe-above-limit', { readings: { 'free-chlorine': reading(9.5, 1) }, without: ['total-chlorine'] }],
    ['ph-maybe-outside', { readings: { ph: reading(7.9, 0.2) } }],
    ['chlorine-not-measured', { without: ['free-chlorine', 'total-chlorine'] }],
    // At least 8, and nobody knows how much more.
    [
      'chlorine-maybe-above-limit',
      { readings: { 'free-chlorine': { value: 8, offScale: 'above' } }, without: ['total-chlorine'] },
    ],
    // From 1 to 11: too little is what counts.
    ['chlorine-maybe-low', { readings: { 'free-chlorine': reading(6, 5) }, without: ['total-chlorine'] }],
    ['ph-not-measured', { without: ['ph'] }],
    ['combined-maybe-high', { readings: { 'total-chlorine': reading(4.7, 0.3) } }],
    ['cloudy-water', { look: { water: 'cloudy', bottomVisible: true } }],
  ] as const)('cannot say: %s', (reason, change) => {
    const verdict = verdictOf(change as never);
    expect(verdict.swim).toBe('cannot-say');
    expect(verdict.reasons).toContain(reason);
  });

  it('makes nothing of combined chlorine that only the errors of two pads let through', () => {
    // 4.5 - 4 = 0.5, the limit itself; with the errors 0 to 1.
    expect(
      verdictOf({ readings: { 'free-chlorine': reading(4, 0.2), 'total-chlorine': reading(4.5, 0.3) } }),
    ).toMatchObject({ swim: 'with-care', reasons: ['chlorine-above-label'] });
  });

  it('names one hardness, not both: calcium where only the total was read', () => {
    const blank: 'calcium-hardness'[] = ['calcium-hardness'];
    const total = { 'total-hardness': reading(300, 20) };
    expect(verdictOf({ without: blank }).notMeasured).toEqual(['total-hardness']);
    expect(verdictOf({ readings: total, without: blank }).notMeasured).toEqual(['calcium-hardness']);
    expect(verdictOf({ readings: { ...total, 'calcium-hardness': reading(250, 10) } }).notMeasured).toEqual([]);
  });

  it('asks less chlorine of water without stabilizer', () => {
    const bare = { pool: { stabilised: false, exposure: 'covered' }, without: ['total-chlorine' as const] };
    const readings = { 'free-chlorine': reading(1.5, 0.2), 'cyanuric-acid': reading(0) };
    expect(verdictOf({ ...bare, readings }).swim).toBe('no-objection');
  });
});
