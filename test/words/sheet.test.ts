import { describe, expect, it } from 'vitest';
import { cardNames } from '../../src/components/read/card-names.ts';
import { type Entry, measurementOf } from '../../src/core/reading/entry.ts';
import {
  intervalText,
  photoGradeText,
  ribbonText,
  spanText,
  summaryText,
  timingMark,
  unitText,
  valueText,
  wordFor,
} from '../../src/words/sheet.ts';
import type { ByHand } from '../../src/core/reading/measured.ts';
import type { PadReading } from '../../src/core/reading/reading.ts';
import type { ScalePad } from '../../src/core/scale/schema.ts';

const scalePad: ScalePad = {
  parameter: 'total-alkalinity',
  unit: 'mg/L',
  centreMm: 10,
  widthMm: 5,
  heightMm: 5,
  blocks: [
    { value: 0, lab: [90, 0, 20] },
    { value: 80, lab: [70, -20, 10] },
    { value: 240, lab: [50, -20, -10] },
  ],
};
const reading: PadReading = {
  quantity: 'total-alkalinity',
  value: 93,
  low: 71.5,
  high: 118,
  alternative: null,
  offScale: null,
  openBelow: false,
  openAbove: false,
  matched: true,
  deltaE: 1,
  lab: [68, -20, 8],
  outline: [],
};
const entry = (pad: Partial<PadReading>, byHand: ByHand | null = null): Entry => ({
  pad: { ...reading, ...pad },
  scalePad,
  target: { low: 80, high: 120 },
  truth: null,
  byHand,
  timing: null,
});

const SCALE = { id: 'my-strips', name: 'Mine', origin: 'taught' } as const;
const TIME = '2026-06-01T09:30:00.000Z';
const measured = (one: Entry) => measurementOf(one, SCALE, TIME);

describe('the mark of the time', () => {
  it('stands on the photo’s value, not on one by hand, and is in the ribbon’s text', () => {
    const late = { ...entry({}), timing: 'read-late' } as const;
    expect(timingMark(entry({}))).toBe('');
    expect(timingMark(late)).toBe('read too late');
    expect(timingMark({ ...late, timing: 'read-early' })).toBe('read too early');
    expect(timingMark({ ...late, byHand: { value: 90, method: 'unsaid' } })).toBe('');
    expect(ribbonText(late)).toContain('93 mg/L, read too late.');
  });
});

describe('a pad in words', () => {
  it('says value, unit, word and interval', () => {
    const one = entry({});
    expect([valueText(one), unitText(one), wordFor(one)?.text]).toEqual(['93', 'mg/L', 'likely in range']);
    expect(intervalText(one)).toBe('Likely 71 to 120.');
    expect(ribbonText(one)).toBe(
      'Total alkalinity 93 mg/L. Likely 71 to 120. Should be 80 to 120. Scale from 0 to 240.',
    );
  });

  it('shows both values where two fit, and both words where they differ', () => {
    const two = entry({ alternative: { value: 190, low: 170, high: 210 } });
    expect(valueText(two)).toBe('93 or 190');
    expect(wordFor(two)).toEqual({ text: 'in range or high', marked: true });
  });

  it('leaves the interval open where the scale ends first', () => {
    expect(intervalText(entry({ value: 235, low: 190, high: 240, openAbove: true }))).toMatch(/^Likely 190 or more:/);
    expect(intervalText(entry({ value: 4, low: 0, high: 22, openBelow: true }))).toMatch(/^Likely 22 or less:/);
  });

  it('hedges a word that the interval reaches beyond', () => {
    const word = (value: number, low: number, high: number) => wordFor(entry({ value, low, high }));
    expect(word(95, 85, 110)).toEqual({ text: 'in range', marked: false });
    expect(word(95, 70, 110)).toEqual({ text: 'likely in range', marked: false });
    expect(word(60, 50, 70)).toEqual({ text: 'low', marked: true });
    expect(word(75, 50, 90)).toEqual({ text: 'perhaps low', marked: true });
  });

  it('names no value it does not have', () => {
    const none = entry({ matched: false, value: null, low: null, high: null });
    expect([valueText(none), wordFor(none)?.text]).toEqual(['–', 'can’t tell']);
    expect(measured(none)).toBeNull();
  });

  it('says over and under off the scale', () => {
    expect(valueText(entry({ value: 240, offScale: 'above' }))).toBe('over 240');
    expect(valueText(entry({ value: 0, offScale: 'below' }))).toBe('under 0');
  });

  it('lets a value by hand stand in for the photo’s, says so, and gives it the interval of its test', () => {
    const hand = entry({ value: 240, offScale: 'above' }, { value: 130, method: 'drops' });
    expect([valueText(hand), wordFor(hand)?.text]).toEqual(['130', 'perhaps high']);
    expect(intervalText(hand)).toBe('Entered by hand, measured by a drop kit: likely 120 to 140.');
    expect(measured(hand)).toMatchObject({
      value: 130,
      low: 120,
      high: 140,
      offScale: null,
      method: 'drops',
      scale: null,
    });
    expect(intervalText(entry({}, { value: 100, method: 'unsaid' }))).toBe('Entered by hand: likely 85 to 115.');
  });

  it('hands on all that the photo gave: both stretches, open ends, the scale and the time', () => {
    const alternative = { value: 190, low: 170, high: 210 };
    expect(measured(entry({ alternative, openAbove: true }))).toEqual({
      quantity: 'total-alkalinity',
      value: 93,
      low: 71.5,
      high: 118,
      alternative,
      offScale: null,
      openBelow: false,
      openAbove: true,
      method: 'photo',
      scale: SCALE,
      time: TIME,
    });
  });
});

describe('several cards in a photo', () => {
  const cardAt = (x: number, y: number) =>
    [
      [x, y],
      [x + 300, y + 10],
      [x + 290, y + 210],
      [x - 10, y + 200],
    ] as const;

  it('are called by where they lie', () => {
    expect(cardNames([cardAt(20, 100), cardAt(500, 160)])).toEqual(['Left card', 'Right card']);
    expect(cardNames([cardAt(90, 10), cardAt(20, 400)])).toEqual(['Upper card', 'Lower card']);
    expect(cardNames([cardAt(0, 0), cardAt(400, 0), cardAt(800, 0)])).toEqual(['Card 1', 'Card 2', 'Card 3']);
  });
});

describe('the whole strip in a line', () => {
  const perhapsHigh = entry({ value: 125 });
  const low = entry({ value: 40, low: 30, high: 50 });

  it('counts what is in range, and names the rest with its word', () => {
    expect(summaryText([entry({ low: 85, high: 110 }), low])).toBe('One in range, total alkalinity low.');
    expect(summaryText([entry({}), entry({}), perhapsHigh])).toBe(
      'Two likely in range, total alkalinity perhaps high.',
    );
    expect(summaryText([entry({})])).toBe('All likely in range.');
    expect(summaryText([low])).toBe('Total alkalinity low.');
    expect(summaryText([])).toBe('');
  });
});

describe('the interval in short', () => {
  it('says ends that are open, and nothing of what is off the scale', () => {
    expect(spanText(entry({}))).toBe('71 to 120');
    expect(spanText(entry({ openAbove: true }))).toBe('72 or more');
    expect(spanText(entry({ openBelow: true }))).toBe('120 or less');
    expect(spanText(entry({ offScale: 'above' }))).toBe('');
  });
});

describe('how good a photo was', () => {
  it('names what the photo is to blame for, and not what the print is', () => {
    expect(photoGradeText({ warnings: [] })).toMatch(/^Good/);
    expect(photoGradeText({ warnings: ['another-print', 'read-late'] })).toMatch(/^Good/);
    expect(photoGradeText({ warnings: ['uneven-light', 'glare-on-pad'] })).toBe(
      'Poor: uneven light and glare on a pad.',
    );
  });
});
