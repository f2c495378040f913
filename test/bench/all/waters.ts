/** Equilibria and plans in a second. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { phOf, contentsOf, speciate } from '../../../src/core/water/equilibrium.ts';
import { planFrom } from '../../../src/core/water/plan/make-plan.ts';
import { anyWater } from '../../core/water/waters.ts';
import { figure, type Section } from './section.ts';
import { inTurns } from './timing.ts';

const WATERS = 2000;
const ROUNDS = 9;
const HOUSEHOLDS = new URL('../../core/water/households/', import.meta.url);

export function watersSection(): Section {
  const waters = fc.sample(anyWater, { seed: 20_260_501, numRuns: WATERS });
  const contents = waters.map(contentsOf);
  const inputs = readdirSync(HOUSEHOLDS)
    .filter((name) => name.endsWith('.json'))
    .map((name) => (JSON.parse(readFileSync(new URL(name, HOUSEHOLDS), 'utf8')) as { input: unknown }).input);
  const [species, equilibria, plans] = inTurns(
    [
      () => waters.forEach((water) => speciate(water)),
      () => contents.forEach((content) => phOf(content)),
      () => inputs.forEach(planOrThrow),
    ],
    ROUNDS,
  ) as [number, number, number];
  const row = (name: string, count: number, millis: number) => [
    name,
    `${count}`,
    figure(millis / count),
    figure((1000 * count) / millis),
  ];
  return {
    tables: [
      {
        title: 'Waters',
        about: `Random waters of home pools, and the households whose plans are reviewed; medians of ${ROUNDS}.`,
        head: ['what', 'waters', 'ms each', 'in a second'],
        rows: [
          row('species at a known pH', waters.length, species),
          row('pH of known contents (equilibrium solved)', contents.length, equilibria),
          row('plan, from its input to its steps', inputs.length, plans),
        ],
      },
    ],
    ratios: [],
  };
}

function planOrThrow(input: unknown): void {
  const made = planFrom(input);
  if (!made.ok) throw new Error(`a household has no plan: ${JSON.stringify(made.issues)}`);
}
