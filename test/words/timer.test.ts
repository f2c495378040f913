import { describe, expect, it } from 'vitest';
import { announcement, secondsText, timesText, windowText } from '../../src/words/timer.ts';

describe('what the dip timer says', () => {
  it.each([
    [0, '0 s'],
    [0.2, '1 s'],
    [29.0000001, '29 s'],
    [99, '99 s'],
    [99.5, '1 min 40 s'],
    [125, '2 min 05 s'],
  ])('%d seconds as %s', (seconds, text) => {
    expect(secondsText(seconds)).toBe(text);
  });

  it('the times of a scale in a sentence', () => {
    expect(timesText({ dipSeconds: 2, readAfterSeconds: 30, readBeforeSeconds: 75 })).toBe(
      '2 s in the water, then the photo 30 to 75 s after it has come out.',
    );
    expect(timesText({ dipSeconds: 0, readAfterSeconds: 0, readBeforeSeconds: 15 })).toBe(
      'Dip it and lift it straight out, then the photo 0 to 15 s after it has come out.',
    );
    expect(windowText({ readAfterSeconds: 60, readBeforeSeconds: 180 })).toBe('60 s to 3 min 00 s');
  });

  it('a step with the time it takes and what to do; nothing of hurry once the photo is read', () => {
    expect(announcement('wait', 24, false)).toMatch(/^Wait\. 24 s until the photo\. The colours/);
    expect(announcement('past', null, false)).toContain('Dip a new strip');
    expect(announcement('past', null, true)).not.toContain('trust');
    expect(announcement('read', 20, true)).toContain('has been read');
  });
});
