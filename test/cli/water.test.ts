import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { readTable, type Row } from '../reference/read-table.ts';

type Answer = Record<string, number | string | null>;

function run(input: string, ...args: string[]) {
  return spawnSync(process.execPath, ['src/cli/water.ts', ...args], { input, encoding: 'utf8' });
}

function answers(waters: readonly unknown[]): Answer[] {
  const { stdout, status } = run(waters.map((water) => `${JSON.stringify(water)}\n`).join(''));
  expect(status).toBe(0);
  return stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Answer);
}

const good = { ph: 7.5, totalAlkalinity: 80, calciumHardness: 250, temperatureC: 26 };
const waterOfRow = (row: Row, suffix = '') => ({
  ph: Number(row[`pH${suffix}`]),
  temperatureC: Number(row['temp_C']),
  calciumHardness: Number(row['calcium_hardness_mgL_CaCO3']),
  totalAlkalinity: Number(row['total_alkalinity_mgL_CaCO3'] ?? row['TA_start_mgL_CaCO3']),
  salt: Number(row['nacl_mgL']),
  cyanuricAcid: Number(row['cya_mgL']),
  boron: Number(row['boron_mgL']),
});

describe('the water command', () => {
  it('answers each line with exactly the agreed keys', () => {
    const [plain, withTarget] = answers([good, { ...good, targetPh: 7.3, freeChlorine: 2 }]);
    const keys = [
      'saturationIndex',
      'handbookIndex',
      'hypochlorousAcidMgL',
      'hypochlorousAcidLowMgL',
      'equilibriumPhWithAir',
    ];
    expect(Object.keys(plain!)).toEqual(keys);
    expect(Object.keys(withTarget!)).toEqual([...keys, 'strongAcidMmolPerL']);
  });

  it('the index is within 0.05 of PHREEQC on all 80 rows', () => {
    const rows = readTable('phreeqc-saturation.csv');
    const found = answers(rows.map((row) => waterOfRow(row)));
    expect(found).toHaveLength(80);
    found.forEach((answer, i) => {
      expect(Math.abs(Number(answer['saturationIndex']) - Number(rows[i]!['SI_phreeqc_3_8_8']))).toBeLessThan(0.05);
    });
  });

  it('acid and base are within 3 % or 0.005 mmol/L of PHREEQC; base is negative', () => {
    const rows = readTable('phreeqc-acid-demand.csv').filter((row) => row['kind']!.endsWith('to target pH'));
    const found = answers(rows.map((row) => ({ ...waterOfRow(row, '_start'), targetPh: Number(row['pH_end']) })));
    expect(found.length).toBeGreaterThan(30);
    found.forEach((answer, i) => {
      const dose = Number(rows[i]!['dose_mmol_per_kgw']) * (rows[i]!['reagent'] === 'NaOH' ? -1 : 1);
      const off = Math.abs(Number(answer['strongAcidMmolPerL']) - dose);
      expect(off).toBeLessThanOrEqual(Math.max(0.03 * Math.abs(dose), 0.005));
    });
  });

  it('hypochlorous acid is within 1 % of both published models at 25 °C', () => {
    const rows = readTable('chlorine-cyanurate.csv').filter((row) => row['model'] === 'OBrien1974_25C');
    const found = answers(
      rows.map((row) => ({
        ...good,
        ph: Number(row['pH']),
        temperatureC: 25,
        totalAlkalinity: 120,
        freeChlorine: Number(row['free_chlorine_mgL_Cl2']),
        cyanuricAcid: Number(row['cya_mgL']),
      })),
    );
    expect(found).toHaveLength(392);
    found.forEach((answer, i) => {
      for (const [key, column] of [
        ['hypochlorousAcidMgL', 'HOCl_mgL_Cl2'],
        ['hypochlorousAcidLowMgL', 'wahman2019_25C_HOCl_mgL_Cl2'],
      ] as const) {
        expect(Math.abs(Number(answer[key]) / Number(rows[i]![column]) - 1)).toBeLessThan(0.01);
      }
    });
  });

  it('a bad line gets a sentence in its place and the rest go on', () => {
    const lines = [
      JSON.stringify(good),
      'not json',
      '[]',
      '{}',
      JSON.stringify({ ...good, ph: 15 }),
      JSON.stringify({ ...good, ph: '7.5' }),
      JSON.stringify({ ...good, salt: -1 }),
      JSON.stringify({ ...good, temperatureC: 79 }),
      JSON.stringify({ ...good, totalAlkalinity: 0, ph: 8 }),
      JSON.stringify({ ...good, ph: 4.5 }),
      '{"ph": 7.5, "totalAlkalinity": 80, "calciumHardness": 1e999, "temperatureC": 25}',
      JSON.stringify({ ...good, targetPh: 14 }),
      JSON.stringify(good),
    ];
    const { stdout, status } = run(lines.join('\n'));
    expect(status).toBe(1);
    const found = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Answer);
    expect(found).toHaveLength(lines.length);
    expect(found[0]).toEqual(found.at(-1));
    expect(found.slice(1, -1).map((answer) => answer['error'])).toMatchInlineSnapshot(`
      [
        "this line is not JSON",
        "a line must be a JSON object",
        "ph is missing; totalAlkalinity is missing; calciumHardness is missing; temperatureC is missing",
        "ph must lie between 0 and 14",
        "ph must be a number",
        "salt can’t be negative",
        "temperatureC looks like degrees Fahrenheit: give degrees Celsius",
        "these can’t all be right: ph and totalAlkalinity. There is less alkalinity than that pH and those acids make by themselves",
        "these can’t both be right: ph and totalAlkalinity. So much alkalinity at so low a pH would make the water fizz",
        "calciumHardness must be a number",
        "targetPh must be at most 11",
      ]
    `);
  });

  it('null counts as left out; no calcium means no index', () => {
    const [left, nulls, soft] = answers([good, { ...good, salt: null }, { ...good, calciumHardness: 0 }]);
    expect(nulls).toEqual(left);
    expect(soft).toMatchObject({ saturationIndex: null, handbookIndex: null });
  });

  it('takes a byte-order mark in front', () => {
    expect(run(`\uFEFF${JSON.stringify(good)}\r\n`)).toMatchObject({
      status: 0,
      stdout: run(JSON.stringify(good)).stdout,
    });
  });

  it('says on standard error what it left aside', () => {
    const { stdout, stderr } = run(JSON.stringify({ ...good, salinity: 3000 }));
    expect(JSON.parse(stdout)).toEqual(answers([good])[0]);
    expect(stderr).toContain('salinity');
  });

  it('no lines, no answers; unknown arguments end it with 2', () => {
    expect(run('')).toMatchObject({ stdout: '', status: 0 });
    expect(run('', '--nonsense')).toMatchObject({ stdout: '', status: 2 });
    expect(run('', '--help').stdout).toMatch(/^Usage/);
  });
});
