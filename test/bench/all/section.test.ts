import { describe, expect, it } from 'vitest';
import { figure, median, spreadOf, spreadText, verdict } from './section.ts';

describe('what a table says', () => {
  it('names a miss, and meets nothing by what was not measured', () => {
    expect(verdict(1.5, 1.5)).toEqual(['at most 1.5 times', 'met']);
    expect(verdict(1.51, 1.5)).toEqual(['at most 1.5 times', '**not met**']);
    expect(verdict(NaN, 1.5)).toEqual(['at most 1.5 times', '**not measured**']);
    expect(verdict(9, null)).toEqual(['–', '–']);
  });

  it('rounds to what can be told', () => {
    const said = [1234.4, 47.12, 1.534, 0.1234, 0.01234, 0, NaN].map(figure);
    expect(said).toEqual(['1234', '47.1', '1.53', '0.123', '0.012', '0.000', 'not measured']);
  });

  it('takes the middle, of an even count the mean of the two', () => {
    expect(median([9, 1, 5])).toBe(5);
    expect(median([4, 1, 2, 10])).toBe(3);
    expect(median([])).toBeNaN();
  });

  it('tells how far rounds lie apart', () => {
    expect(spreadText(spreadOf([1.5, 9, 1, 2, 1.2]))).toBe('1.50 (1.20 to 2.00)');
    expect(spreadText(spreadOf([]))).toBe('not measured');
  });
});
