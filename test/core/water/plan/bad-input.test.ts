/** An impossible or contradictory input gets a sentence, not a number. */
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../../src/core/water/plan/make-plan.ts';
import { planIssueText } from '../../../../src/words/plan-input.ts';
import { plain, reading } from './inputs.ts';

const issuesOf = (input: unknown) => {
  const made = planFrom(input);
  return made.ok ? [] : made.issues;
};

describe('bad inputs, one by one', () => {
  it.each([
    ['nothing', undefined],
    ['empty', {}],
    ['text', 'fill my pool'],
    ['a list', [1, 2, 3]],
    ['negative chlorine', plain({ readings: { 'free-chlorine': { value: -2 } } })],
    ['pH 15', plain({ readings: { ph: { value: 15 } } })],
    ['pH as text', plain({ readings: { ph: { value: '7.5' } } })],
    ['82 as °C', plain({ readings: { temperature: { value: 82 } } })],
    ['volume 0', plain({ pool: { volumeLitres: 0 } })],
    ['volume huge', plain({ pool: { volumeLitres: 1e15 } })],
    ['volume negative', plain({ pool: { volumeLitres: -5 } })],
    ['strength 0', plain({ shelf: [{ product: 'hydrochloric-acid', strength: 0 }] })],
    ['strength 300 %', plain({ shelf: [{ product: 'hydrochloric-acid', strength: 300 }] })],
    ['a span upside down', plain({ readings: { ph: { value: 7.5, low: 7.8, high: 7.2 } } })],
    ['alkalinity huge', plain({ readings: { 'total-alkalinity': { value: 1e9 } } })],
    ['not a number', plain({ readings: { ph: { value: Number.NaN } } })],
    ['salt like the sea twice over', plain({ readings: { salt: { value: 70_000 } } })],
    [
      'next to no time for a loss',
      plain({ chlorineLoss: { before: reading(3), after: reading(2), hours: 1e-300, night: true } }),
    ],
    ['next to no strength', plain({ shelf: [{ product: 'hydrochloric-acid', strength: 1e-300 }] })],
    ['a pump that hardly moves', plain({ pool: { pump: { litresPerHour: 1e-300 } } })],
    ['a cell that makes nothing', plain({ pool: { cell: { gramsPerHour: 1e-300 } } })],
    ['a span without end', plain({ readings: { ph: { value: 7.5, low: -1e300, high: 1e300 } } })],
    ['an unknown field', { ...plain(), colour: 'blue' }],
  ])('%s: a sentence that says where', (_, input) => {
    const issues = issuesOf(input);
    expect(issues.length).toBeGreaterThan(0);
    for (const issue of issues) expect(planIssueText(issue, 'metric')).toMatch(/[a-z]+ [a-z]+/i);
  });

  it('alkalinity 0 with pH 8 is no water', () => {
    const issues = issuesOf(plain({ readings: { ph: reading(8), 'total-alkalinity': reading(0) } }));
    expect(issues).toEqual([
      {
        code: 'alkalinity-too-low-for-ph',
        path: ['readings', 'total-alkalinity'],
        ph: 8,
        alkalinity: 0,
        cyanuricAcid: 40,
      },
    ]);
    expect(planIssueText(issues[0]!, 'metric')).toBe(
      'no water has pH 8 with a total alkalinity of 0 mg/L and 40 mg/L of stabilizer: test both again',
    );
  });

  it('pH 5 with plenty of alkalinity would fizz', () => {
    const issues = issuesOf(plain({ readings: { ph: reading(5), 'total-alkalinity': reading(300) } }));
    expect(issues.map(({ code }) => code)).toEqual(['ph-too-low-for-alkalinity']);
  });

  it('is answered in the units that were typed', () => {
    const said = (readings: object, units: 'metric' | 'us') =>
      planIssueText(issuesOf(plain({ readings: readings as never }))[0]!, units);
    // 120 °F, as a page in US units hands it on.
    expect(said({ temperature: { value: 48.888888888888886 } }, 'us')).toBe(
      'the water temperature can’t be 120 °F: it must lie between 32 °F and 113 °F',
    );
    expect(said({ temperature: { value: (27 - 32) / 1.8 } }, 'us')).toBe(
      '27 °F can’t be a pool: 27 °C would be 81 °F, was it in Celsius?',
    );
    expect(said({ temperature: { value: 82 } }, 'metric')).toBe(
      '82 °C can’t be a pool: 82 °F would be 28 °C, was it in Fahrenheit?',
    );
    const small = issuesOf(plain({ pool: { volumeLitres: 37.85411784 } }))[0]!;
    expect(planIssueText(small, 'us')).toBe('the volume can’t be 10 US gal: it must be at least 26.42 US gal');
  });

  it('total chlorine below free, calcium above total hardness', () => {
    const chlorine = plain({ readings: { 'free-chlorine': reading(4, 0.2), 'total-chlorine': reading(3, 0.2) } });
    expect(issuesOf(chlorine).map(({ code }) => code)).toEqual(['total-below-free']);
    const hardness = plain({ readings: { 'calcium-hardness': reading(300, 10), 'total-hardness': reading(200, 10) } });
    expect(issuesOf(hardness).map(({ code }) => code)).toEqual(['calcium-above-total']);
    const alike = plain({ readings: { 'calcium-hardness': reading(210, 5), 'total-hardness': reading(200, 5) } });
    expect(issuesOf(alike)).toEqual([]);
    const doubtful = plain({ readings: { 'free-chlorine': reading(4, 0.6), 'total-chlorine': reading(3.5, 0.6) } });
    expect(issuesOf(doubtful)).toEqual([]);
  });
});
