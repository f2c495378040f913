import { describe, expect, it } from 'vitest';
import type { DoseResult } from '../../src/core/progress/dose-results.ts';
import { doseResultText, estimateTexts, goByText, oddityText } from '../../src/words/water-now.ts';

const NOW = new Date('2026-06-20T10:00:00.000Z');
const DOSE: DoseResult = {
  quantity: 'salt',
  kind: 'raise-salt',
  done: '2026-06-10T10:00:00.000Z',
  from: '2026-06-11T10:00:00.000Z',
  until: '2026-07-01T10:00:00.000Z',
  before: { value: 2000, low: 1900, high: 2100 },
  predicted: { value: 2900, low: 2800, high: 3000 },
  reading: null,
  outcome: null,
  untold: 'untested',
  ratio: null,
};

describe('what a dose did', () => {
  it('waits for a test as long as one can tell, and says afterwards that none was made', () => {
    expect(doseResultText(DOSE, NOW)).toMatch(/2,800 to 3,000; no test has looked at it yet\.$/);
    expect(doseResultText(DOSE, new Date('2026-07-02T10:00:00.000Z'))).toMatch(/no test was made in time to tell\.$/);
    expect(doseResultText({ ...DOSE, untold: 'disturbed' }, NOW)).toContain('nobody can tell');
  });

  it('says by how much it missed', () => {
    const reading = { value: 3800, time: '2026-06-12T10:00:00.000Z' } as DoseResult['reading'];
    const beyond = {
      ...DOSE,
      reading,
      outcome: 'beyond',
      untold: null,
      ratio: { value: 2, low: 1.8, high: 2.2 },
    } as const;
    expect(doseResultText(beyond, NOW)).toContain('It went beyond that. It did 200 % (180 to 220 %) of what was due: ');
  });
});

it('tells a strength as what the product did', () => {
  const strength = { product: 'calcium-chloride', value: 0.714, low: 0.62, high: 0.81 } as const;
  expect(goByText(strength)).toBe(
    'Go by what the logbook has learnt: calcium chloride did 71 % (62 to 81 %) of what its strength in the log would do.',
  );
});

it('names one day where a jump lies within it', () => {
  const none = { value: null, bound: null, expected: null };
  const jump = { kind: 'jump', quantity: 'calcium-hardness', change: -69, ...none } as const;
  const day = { from: '2026-06-12T08:00:00.000Z', to: '2026-06-12T12:00:00.000Z' };
  expect(oddityText({ ...jump, ...day })).toMatch(/^Calcium hardness fell by about 69 mg\/L on 12 June: /);
  expect(oddityText({ ...jump, ...day, from: '2026-06-03T12:00:00.000Z' })).toContain('between 3 June and 12 June');
});

it('says of a reading beyond the scale that it may be more', () => {
  const [from, to] = ['2026-06-12T08:00:00.000Z', '2026-06-12T08:00:00.000Z'];
  const over = {
    kind: 'unconfirmed',
    quantity: 'free-chlorine',
    from,
    to,
    change: null,
    value: 10,
    bound: 'above',
  } as const;
  expect(oddityText({ ...over, expected: 3 })).toContain(
    '10 mg/L or more doesn’t fit what was known before, about 3.0 mg/L',
  );
});

it('shows a temperature in the visitor’s units', () => {
  const water = { value: 26, low: 25, high: 27 };
  expect(estimateTexts('temperature', water, 'us')).toEqual(['78.8', '(77.0 to 80.6)']);
  expect(estimateTexts('temperature', water, 'metric')[0]).toBe('26.0');
});
