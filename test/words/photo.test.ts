import { expect, it } from 'vitest';
import { PHOTO_FAILURES } from '../../src/core/photo/failure.ts';
import { photoMessage, photoMessages } from '../../src/words/photo.ts';

it('every failure has a sentence of its own and says what to do', () => {
  const wrong = PHOTO_FAILURES.map((failure) => photoMessage(failure).wrong);
  expect(new Set(wrong).size).toBe(PHOTO_FAILURES.length);
  for (const failure of PHOTO_FAILURES) {
    expect(photoMessage(failure).wrong).toMatch(/^[A-Z].*\.$/);
    expect(photoMessage(failure).remedy).toMatch(/^[A-Z].*\.$/);
  }
});

it('the list has all of them', () => {
  expect(new Set(photoMessages())).toEqual(new Set(PHOTO_FAILURES.map(photoMessage)));
});
