import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CHLORINATIONS,
  chlorineTarget,
  SURFACES,
  TARGET_IDS,
  targetsFor,
  targetsSchema,
} from '../../../src/core/water/targets.ts';
import { planFrom } from '../../../src/core/water/plan/make-plan.ts';
import { planIssueText } from '../../../src/words/plan-input.ts';
import { plain } from './plan/inputs.ts';
import { readTable, type Row } from '../../reference/read-table.ts';

const kinds = SURFACES.flatMap((surface) =>
  CHLORINATIONS.flatMap((chlorination) => [true, false].map((stabilised) => ({ surface, chlorination, stabilised }))),
);

describe('the targets by kind of pool', () => {
  it.each(kinds)('$surface, $chlorination, stabilised $stabilised: rise, and say where they come from', (kind) => {
    const targets = targetsFor(kind, 40);
    for (const id of TARGET_IDS) {
      const { low, aim, high, limit, lowFrom, aimFrom, highFrom } = targets[id];
      expect(low).toBeLessThanOrEqual(aim);
      expect(aim).toBeLessThanOrEqual(high);
      expect(high).toBeLessThanOrEqual(limit);
      for (const { source, status } of [lowFrom, aimFrom, highFrom]) {
        expect(source === '').toBe(status === 'common-practice');
      }
    }
  });

  it('aims lower in alkalinity where chlorine drives the pH up', () => {
    const aim = (chlorination: (typeof CHLORINATIONS)[number]) =>
      targetsFor({ surface: 'vinyl', chlorination, stabilised: true }, 40)['total-alkalinity'].aim;
    expect(aim('chlorinator')).toBeLessThan(aim('trichlor'));
    expect(aim('hypochlorite')).toBeLessThan(aim('dichlor'));
  });

  it('wants more calcium for plaster than for a liner', () => {
    const low = (surface: (typeof SURFACES)[number]) =>
      targetsFor({ surface, chlorination: 'hypochlorite', stabilised: true }, 40)['calcium-hardness'].low;
    expect(low('plaster')).toBe(200);
    expect(low('vinyl')).toBe(150);
  });
});

describe('free chlorine against stabilizer', () => {
  it('keeps the ratio of at most 20 and the code, whichever asks for more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 300, noNaN: true }), (cya) => {
        const { low, aim, high } = chlorineTarget(cya);
        expect(cya / low).toBeLessThanOrEqual(20 + 1e-9);
        expect(low).toBeGreaterThanOrEqual(2);
        expect(low).toBeLessThanOrEqual(aim);
        expect(aim).toBeLessThanOrEqual(high);
      }),
      { seed: 71 },
    );
    expect(chlorineTarget(0).low).toBe(1);
    expect(chlorineTarget(80).low).toBe(4);
    expect(chlorineTarget(80).lowFrom.status).toBe('memory');
  });
});

describe('what the owner sets', () => {
  it('replaces the default and is marked', () => {
    const targets = targetsFor({ surface: 'vinyl', chlorination: 'chlorinator', stabilised: true }, 50, {
      salt: { low: 3600, aim: 4000, high: 4800 },
    });
    expect(targets.salt).toMatchObject({ low: 3600, aim: 4000, high: 4800, limit: 4800, edited: true });
    expect(targets.ph.edited).toBe(false);
  });

  it('is refused in sentences', () => {
    const messages = (targets: unknown) => {
      const made = planFrom(plain({ targets }));
      return made.ok ? [] : made.issues.map((issue) => planIssueText(issue, 'metric'));
    };
    expect(messages({ ph: { low: 7.8, aim: 7.4, high: 7.2 } })).toEqual([
      'a target here must rise from its lower end over its aim to its upper end',
    ]);
    expect(messages({ ph: { low: 7.2, aim: 7.4, high: 78 } })).toEqual(['a target here can’t be 78: 8 is the most']);
    expect(messages({ salt: { low: 'much', aim: 1, high: 2 } })).toEqual(['a target here must be a number']);
    expect(messages({ colour: { low: 1, aim: 1, high: 1 } })).toEqual(['this isn’t known here: colour']);
    expect(messages({})).toEqual([]);
  });
});

describe('against the published ranges', () => {
  const published = readTable('ranges.csv');
  const NAMES: Record<string, string> = { ph: 'pH' };
  const rowOf = (parameter: string, source: string, water = 'pool') =>
    published.find(
      (row) =>
        row['parameter'] === parameter && row['source']!.startsWith(source) && row['water']!.split(' ').includes(water),
    )!;
  const numbers = (row: Row, ...columns: string[]) =>
    columns.flatMap((column) => [...(row[column] ?? '').matchAll(/-?\d+(\.\d+)?/g)].map(([text]) => Number(text)));
  const first = (row: Row, column: string) => numbers(row, column)[0]!;
  const standard = (parameter: string) => rowOf(parameter, 'ANSI/APSP/ICC-11');
  const montana = (parameter: string) => rowOf(parameter, 'Administrative Rules of Montana');

  it.each(kinds)('$surface, $chlorination, stabilised $stabilised: what is claimed as read is there', (kind) => {
    const targets = targetsFor(kind, 40);
    for (const id of TARGET_IDS) {
      const { low, aim, high, lowFrom, aimFrom, highFrom } = targets[id];
      const ends = [
        [low, lowFrom],
        [aim, aimFrom],
        [high, highFrom],
      ] as const;
      for (const [value, { source, status }] of ends) {
        if (!status.startsWith('read')) continue;
        const [who] = source.split(/, | \d/);
        const rows = published.filter((row) => {
          const whose = row['source']!.replace(/^several public web copies/, 'public copies');
          return row['parameter'] === (NAMES[id] ?? id.replace('-', ' ')) && whose.startsWith(who!);
        });
        const isThere = (row: Row) =>
          numbers(row, 'minimum', 'ideal_low', 'ideal_high', 'maximum').includes(value) ||
          (value >= first(row, 'ideal_low') && value <= first(row, 'ideal_high'));
        expect(rows.some(isThere), `${id} ${value} by ${source}`).toBe(true);
      }
    }
  });

  it.each(kinds)('$surface, $chlorination, stabilised $stabilised: the kind gets its own', (kind) => {
    const { surface, chlorination, stabilised } = kind;
    const targets = targetsFor(kind, 40);
    const givesCalcium = surface === 'plaster' || surface === 'tile';
    const hasCell = chlorination === 'chlorinator';
    const eatsAlkalinity = chlorination === 'trichlor' || chlorination === 'dichlor';
    expect(targets['calcium-hardness']).toMatchObject({
      low: first(standard('calcium hardness'), givesCalcium ? 'ideal_low' : 'minimum'),
      high: first(standard('calcium hardness'), 'ideal_high'),
      limit: first(standard('calcium hardness'), 'maximum'),
    });
    const [hypochlorites, others] = numbers(montana('total alkalinity'), 'ideal_high');
    expect(targets['total-alkalinity'].high).toBe(eatsAlkalinity ? others : hypochlorites);
    expect(targets['total-alkalinity'].limit).toBe(first(standard('total alkalinity'), 'maximum'));
    expect(targets.ph.aim).toBe(eatsAlkalinity ? 7.5 : 7.4);
    expect(targets['cyanuric-acid'].low).toBe(
      stabilised ? first(rowOf('cyanuric acid', 'Anne Arundel'), 'minimum') : 0,
    );
    if (!(stabilised && hasCell)) {
      expect(targets['cyanuric-acid'].high).toBe(first(montana('cyanuric acid'), 'ideal_high'));
    }
    const salt = rowOf('salt', 'common practice', 'electrolytic-chlorine');
    expect(targets.salt.low).toBe(hasCell ? first(salt, 'ideal_low') : 0);
    expect(targets.salt.high).toBe(hasCell ? first(salt, 'ideal_high') : 3000);
    const widest = givesCalcium ? 'pool-operator' : 'several public';
    expect(targets['saturation-index'].low).toBe(first(rowOf('saturation index', widest), 'minimum'));
  });

  it('chlorine never leaves the code: 10 mg/L, however much stabilizer there is', () => {
    const code = published.find(({ water }) => water === 'pool with cyanuric acid')!;
    // From 120 mg/L on the day's reserve no longer fits under it; from 200 on not even the least does.
    expect(chlorineTarget(120)).toMatchObject({ low: 6, aim: 8, high: first(code, 'maximum'), limit: 10 });
    expect(chlorineTarget(180)).toMatchObject({ low: 9, aim: 10, high: 10, limit: 10 });
    expect(chlorineTarget(300)).toMatchObject({ low: 15, aim: 15, high: 15, limit: 15 });
    expect(chlorineTarget(20)).toMatchObject({ low: first(code, 'minimum'), aim: 4, high: 6 });
    expect(chlorineTarget(0)).toMatchObject({ low: 1, aim: 2, high: 3 });
    expect(chlorineTarget(40).lowFrom.source).toMatch(/Model Aquatic Health Code/);
    expect(chlorineTarget(41).lowFrom.source).toMatch(/^Falk/);
  });
});

describe('what an owner may set', () => {
  const isTaken = (id: string, low: number, high: number) =>
    targetsSchema.safeParse({ [id]: { low, aim: (low + high) / 2, high } }).success;

  it.each(TARGET_IDS)(
    '%s: as it is for every kind of pool, but no slip of the decimal point and no wrong sign',
    (id) => {
      for (const kind of kinds) {
        const { low, high } = targetsFor(kind, 40)[id];
        expect(isTaken(id, low, high)).toBe(true);
        expect(isTaken(id, low, 10 * high)).toBe(false);
        expect(isTaken(id, -10 * high, high)).toBe(false);
      }
    },
  );

  it('may be one point, but not fall on either side', () => {
    expect(isTaken('ph', 7.4, 7.4)).toBe(true);
    const falls = (low: number, aim: number, high: number) =>
      targetsSchema.safeParse({ ph: { low, aim, high } }).success;
    expect(falls(7.5, 7.4, 7.6)).toBe(false);
    expect(falls(7.2, 7.7, 7.6)).toBe(false);
  });
});
