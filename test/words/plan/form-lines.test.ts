import { expect, it } from 'vitest';
import { poolLine, readingsLine } from '../../../src/words/plan/form-lines.ts';

it('says what was typed as it was typed, and what was read to the step it supports', () => {
  const told = {
    'total-alkalinity': { value: 101, method: 'drops' },
    ph: { value: 6.4, method: 'photo', offScale: 'below' },
    salt: { value: 3217, method: 'photo' },
    temperature: { value: 26.4 },
  };
  expect(readingsLine(['ph', 'total-alkalinity', 'salt', 'temperature'], told, 'us')).toBe(
    'pH under 6.4, alkalinity 101, salt 3,200, water 80 °F',
  );
  expect(readingsLine(['ph'], {}, 'metric')).toBe('nothing yet');
});

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

it('names the pool in the visitor’s units', () => {
  const pool = { volumeLitres: 28_500, surface: 'vinyl', chlorination: 'chlorinator', cell: { gramsPerHour: 12 } };
  expect(plain(poolLine(pool, 'metric'))).toBe('28,500 L, vinyl, chlorinator 12 g/h');
  // 12 g/h are 288 g a day, of 453.6 g to the pound (NIST SP 811).
  expect(plain(poolLine(pool, 'us'))).toBe('7,530 US gal, vinyl, chlorinator 0.63 lb a day');
});
