import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { planFrom } from '../../src/core/water/plan/make-plan.ts';
import { plain, reading } from '../core/water/plan/inputs.ts';

function run(input: string, ...args: string[]) {
  return spawnSync(process.execPath, ['src/cli/plan.ts', ...args], { input, encoding: 'utf8' });
}

const lines = (stdout: string) =>
  stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe('the plan command', () => {
  it('gives a plan a line with the agreed keys, and goes on after a broken line', () => {
    const low = plain({ readings: { ph: reading(7.95, 0.05) } });
    const { stdout, status } = run(
      `\uFEFF${JSON.stringify(low)}\nnot json\n{"pool": {}}\n\n${JSON.stringify(plain())}\n`,
    );
    const found = lines(stdout);
    expect(found.map(({ ok }) => ok)).toEqual([true, false, false, true]);
    expect(status).toBe(2);
    expect(found[0]).toMatchObject({
      plan: {
        verdict: { swim: 'correct-first', reasons: expect.arrayContaining(['ph-outside-code']) as string[] },
        steps: [
          {
            kind: 'lower-ph',
            amount: { product: 'hydrochloric-acid' },
            after: { water: { ph: expect.any(Number) as number } },
          },
        ],
        holds: [],
        retests: expect.any(Array) as unknown[],
        upkeep: { kind: 'product' },
      },
    });
    expect(found[1]).toMatchObject({ issues: [{ message: 'this line is not JSON' }] });
    for (const { message } of (found[2] as { issues: { message: string }[] }).issues)
      expect(message).toMatch(/\w+ \w+/);
    expect(found[3]).toEqual(JSON.parse(JSON.stringify(planFrom(plain()))) as object);
  });

  it('gives words, and sentences for what can’t be, in the units that are asked for', () => {
    const { stdout, status } = run(
      `${JSON.stringify(plain({ readings: { ph: reading(7.95, 0.05) } }))}\n`,
      '--text',
      '--units',
      'us',
    );
    expect(status).toBe(0);
    expect(stdout).toContain('1. Lower the pH');
    expect(stdout).toMatch(/Add [\d a-z]+ of hydrochloric/);
    expect(run('[]\n', '--text').stdout).toContain("Line 1 is no plan's input:");
  });

  it('says what was asked wrongly, with 2', () => {
    for (const args of [['--colour'], ['--units', 'roman'], ['file.jsonl']]) {
      const { stderr, status } = run('', ...args);
      expect(status).toBe(2);
      expect(stderr).toContain('Usage: npm run --silent plan');
    }
    expect(run('', '--help')).toMatchObject({ status: 0 });
  });
});
