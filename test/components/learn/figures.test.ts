import * as figures from '../../../src/components/learn/figures.ts';
import { examplePoolLitres } from '../../../src/components/drawings/example.ts';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../reference/read-table.ts';

const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);
const number = (text: string) => Number(/[\d.]+/.exec(text)![0]);
const cubicMetres = examplePoolLitres() / 1000;

describe('figures in the explainers’ sentences, against the dose facts, rounded as a person measures', () => {
  it.each([
    ['bleach', figures.bleachMl(1), fact('D066'), 'mL'],
    ['bicarbonate', figures.bicarbonateG(10), fact('D016'), 'g'],
    ['acid for alkalinity', figures.acidForAlkalinityMl(10), fact('D024'), 'mL'],
    ['stabilizer', figures.stabilizerG(10), fact('D042'), 'g'],
    ['calcium chloride flake', figures.calciumChlorideKg(50), (fact('D035') * 5) / 1000, 'kg'],
    ['salt', figures.saltKg(500), fact('D040') / 2 / 1000, 'kg'],
  ])('%s', (_, said, perCubicMetre, unit) => {
    expect(said).toContain(unit);
    expect(number(said) / (perCubicMetre * cubicMetres)).toBeGreaterThan(0.97);
    expect(number(said) / (perCubicMetre * cubicMetres)).toBeLessThan(1.03);
  });

  it.each([
    ['trichlor’s stabilizer', figures.trichlorStabilizer(), fact('D075')],
    ['dichlor’s stabilizer', figures.dichlorStabilizer(), fact('D076')],
    ['calcium hypochlorite’s calcium', figures.calHypoHardness(), fact('D077')],
    ['bleach’s salt', figures.bleachSalt(), fact('D078')],
    ['trichlor’s acid', figures.trichlorAlkalinity(), fact('D079')],
    ['chlorine to nitrogen', figures.breakpointMass(), fact('D097')],
    ['chlorine to monochloramine', figures.breakpointRatio(), fact('D098')],
    ['Faraday’s ceiling', figures.chlorinePerAmpHour(), fact('D099')],
    ['German degree', figures.germanDegree(), fact('D009')],
    ['one turnover', figures.turnoverShare(1), fact('D102')],
    ['four turnovers', figures.turnoverShare(4), fact('D105')],
    ['half drained', figures.drainShare({ from: 100, to: 50, fill: 0 }), fact('D108')],
    ['hard water swapped', figures.drainShare({ from: 600, to: 400, fill: 100 }), fact('D110')],
  ])('%s', (_, said, expected) => {
    const digits = /\.(\d+)/.exec(said)?.[1]?.length ?? 0;
    expect(Math.abs(number(said) - expected)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-9);
  });

  it('pool water in air: PHREEQC 3.8.8 within 0.15, for a little salt and stabilizer apart', () => {
    const rows = readTable('phreeqc-acid-demand.csv').filter((row) => row['id'] === 'A063' || row['id'] === 'A067');
    expect(rows).toHaveLength(2);
    // A063: alkalinity 60, no stabilizer. A067: alkalinity 100 with 50 mg/L of it. The example water has 30.
    expect(Math.abs(Number(figures.airPh({ alkalinity: 60 })) - Number(rows[0]!['pH_end']))).toBeLessThanOrEqual(0.15);
    expect(Math.abs(Number(figures.airPh({ alkalinity: 100 })) - Number(rows[1]!['pH_end']))).toBeLessThanOrEqual(0.15);
  });

  it('active share of the classic table', () => {
    const row = readTable('chlorine-cyanurate.csv').find(
      (each) =>
        each['model'] === 'OBrien1974_25C' &&
        Number(each['pH']) === 7.5 &&
        Number(each['cya_mgL']) === 50 &&
        Number(each['free_chlorine_mgL_Cl2']) === 3,
    )!;
    const said = number(figures.activeShare({ ph: 7.5, stabilizer: 50 }));
    expect(said).toBeCloseTo(Number(row['HOCl_pct_of_free']), 2);
  });
});

describe('figures of equipment, water let out and tears', () => {
  it('the cell’s hydrogen: as many molecules as chlorine, 24.47 L/mol at 25 °C (IUPAC gas constant, 1 atm)', () => {
    // 12 g/h of chlorine at 70.90 g/mol.
    expect(number(figures.cellHydrogen())).toBe(Math.round((12 / 70.9) * 24.465));
  });

  it('per cent and hours make the same chlorine, and never less than the pool uses', () => {
    const grams = (cubicMetres * 1000 * 2) / 1000;
    for (const pumpHours of [6, 8, 10, 12, 24]) {
      const made = (number(figures.cellSetting({ pumpHours })) / 100) * 12 * pumpHours;
      expect(made).toBeGreaterThanOrEqual(grams - 1e-9);
      expect(made - grams).toBeLessThanOrEqual(0.05 * 12 * pumpHours);
    }
  });

  it('a backwash of 3.5 minutes at 6 m³/h', () => {
    const { litres, share, salt, stabilizer } = figures.backwash({ minutes: 3.5, salt: 3200 });
    expect(number(litres)).toBe(350);
    expect(number(share)).toBeCloseTo(35 / cubicMetres, 1);
    expect(number(salt)).toBeCloseTo(0.35 * 3.2, 1);
    expect(number(stabilizer)).toBe(Math.round(0.35 * 30));
  });

  it('two swaps of a third leave four ninths', () => {
    expect(figures.afterSwaps({ from: 100, share: 1 / 3, times: 2 })).toBe('44');
  });

  it('tears: 0.9 % saline is isotonic with them (308 mOsm/L, European Pharmacopoeia, from memory)', () => {
    expect(Math.abs(number(figures.tearSalt().replace(/\D/g, '')) - 9000)).toBeLessThanOrEqual(300);
  });
});

it('waits are said in words, whatever the plan has', () => {
  const waits = [
    figures.betweenProducts(),
    figures.acidToChlorine(),
    figures.sodaToCalcium(),
    figures.showsAfter('ph'),
    figures.showsAfter('cyanuric-acid'),
  ];
  for (const wait of waits) expect(wait).toMatch(/^(half an hour|an hour|a day|a week|\d+(\.5)? (hours|days))$/);
});
