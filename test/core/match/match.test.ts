import { describe, expect, it } from 'vitest';
import { doseOfError } from '../../../src/core/match/dose.ts';
import { appearance, EYES, LIGHTS } from '../../../src/core/match/look.ts';
import { choicesOf, newRound, valueOfChoice } from '../../../src/core/match/round.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import type { ScalePad } from '../../../src/core/scale/schema.ts';
import { waterOf } from '../../../src/core/water/water.ts';
import scale from '../../../src/content/scales/practice-five.json' with { type: 'json' };
import { readTable } from '../../reference/read-table.ts';
import { randomFrom } from '../../studio/random.ts';

const pads = scale.pads as unknown as ScalePad[];
const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);

describe('a strip to match by eye', () => {
  it.each(pads)(
    'hides a value on the scale, and the photo’s interval holds it about nine times in ten: $parameter',
    (pad) => {
      const random = randomFrom(11).next;
      const rounds = Array.from({ length: 400 }, () => newRound(pad, random));
      const held = rounds.filter(({ value, photo: { best, alternative } }) =>
        [best, ...(alternative ? [alternative] : [])].some(({ low, high }) => value >= low && value <= high),
      );
      expect(held.length / 400).toBeGreaterThan(0.86);
      for (const { value } of rounds) {
        expect(value).toBeGreaterThanOrEqual(pad.blocks[0]!.value);
        expect(value).toBeLessThanOrEqual(pad.blocks.at(-1)!.value);
      }
    },
  );

  it('offers every block and half way between two', () => {
    const pad = pads.find(({ parameter }) => parameter === 'ph')!;
    expect(choicesOf(pad)).toHaveLength(2 * pad.blocks.length - 1);
    expect(valueOfChoice(pad, 0)).toBe(pad.blocks[0]!.value);
    expect(valueOfChoice(pad, 0.5)).toBeCloseTo((pad.blocks[0]!.value + pad.blocks[1]!.value) / 2, 9);
  });
});

describe('light and eyes', () => {
  const [first, second] = [pads[1]!.blocks[0]!.lab, pads[1]!.blocks.at(-1)!.lab];
  const apart = (light: (typeof LIGHTS)[number], eyes: (typeof EYES)[number]) =>
    ciede2000(appearance(first, light, eyes), appearance(second, light, eyes));

  it('shows a colour as it is by day to eyes that see all colours', () => {
    appearance(first, 'day', 'full').forEach((x, i) => expect(x).toBeCloseTo(first[i]!, 6));
  });

  it('leaves lightness alone where no colours are seen', () => {
    expect(appearance(first, 'day', 'none')[0]).toBeCloseTo(first[0], 6);
    expect(appearance(first, 'lamp', 'none').slice(1)).toEqual([0, 0]);
  });

  it('brings colours nearer in the dusk and to weaker eyes', () => {
    expect(apart('dusk', 'full')).toBeLessThan(apart('day', 'full'));
    expect(apart('day', 'none')).toBeLessThan(apart('day', 'full'));
  });
});

describe('what an error of reading would have dosed, against the dose facts', () => {
  const water = waterOf({
    ph: 7.5,
    totalAlkalinity: 80,
    calciumHardness: 250,
    temperatureC: 26,
    cyanuricAcid: 30,
    salt: 3000,
  });
  const error = (quantity: PadQuantity, read: number, truth: number) =>
    doseOfError(quantity, read, truth, water, 10_000)!;

  it.each([
    ['total-alkalinity', 90, 100, fact('D016')],
    ['total-hardness', 240, 250, fact('D035')],
    ['cyanuric-acid', 20, 30, fact('D042')],
    ['free-chlorine', 2, 3, fact('D066')],
  ] as const)('%s', (quantity, read, truth, perCubicMetre) => {
    const dose = error(quantity, read, truth);
    expect(dose.amount / (10 * perCubicMetre)).toBeCloseTo(1, 2);
    expect(dose.kind).toBe('needless');
    expect(error(quantity, truth, read).kind).toBe('missing');
  });

  it('takes acid for a pH read too high, and soda ash for one too low', () => {
    expect(error('ph', 7.8, 7.5)).toMatchObject({ product: 'hydrochloric-acid', form: 'liquid' });
    expect(error('ph', 7.2, 7.5)).toMatchObject({ product: 'soda-ash', form: 'solid' });
  });

  it('is nothing where nothing was wrong', () => {
    expect(doseOfError('ph', 7.5, 7.5, water, 10_000)).toBeNull();
  });
});
