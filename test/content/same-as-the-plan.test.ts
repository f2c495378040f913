/** The explainers and the plan say the same: order, waits and limits. */
import { describe, expect, it } from 'vitest';
import sources from '../../src/content/sources.json' with { type: 'json' };
import { acidToChlorine } from '../../src/components/learn/figures.ts';
import { SWIM_PH } from '../../src/core/water/plan/verdict.ts';
import { parsed, plain, reading } from '../core/water/plan/inputs.ts';
import { makePlan } from '../../src/core/water/plan/make-plan.ts';
import { explainers, headings } from './explainers.ts';

const bodyOf = (name: string) => explainers.find((page) => page.name === name)!.body;
const section = (name: string, heading: string) => bodyOf(name).split(`## ${heading}\n`)[1]!.split('\n## ')[0]!;

describe('after a storm', () => {
  const water = plain({
    readings: { ph: reading(8.1, 0.05), 'free-chlorine': reading(0.5, 0.1), 'total-chlorine': reading(0.5, 0.1) },
  });
  const outcome = makePlan(parsed(water));
  const steps = outcome.ok ? outcome.plan.steps : [];
  const place = (kind: string) => steps.findIndex((step) => step.kind === kind);

  it('the plan brings the pH into its range first, then chlorine, and so does the page', () => {
    expect(place('lower-ph')).toBeGreaterThanOrEqual(0);
    expect(place('lower-ph')).toBeLessThan(place('raise-chlorine'));
    expect(section('a-season', 'Storm')).toMatch(/pH into its range first, then raise the chlorine/);
    expect(bodyOf('free-chlorine')).toMatch(/bring it into range before you add chlorine/);
  });

  it('the plan waits between them at least as long as the pages say', () => {
    const hours = steps[place('raise-chlorine')]!.waitFirst!.hours;
    expect(acidToChlorine()).toBe('an hour');
    expect(hours).toBeGreaterThanOrEqual(1);
  });
});

it('no page writes out a wait between acid and chlorine by hand', () => {
  const written = explainers.flatMap(({ name, body }) =>
    body
      .split(/(?<=[.!?])\s|\n/)
      .filter((sentence) => /\bacid\b/i.test(sentence) && /chlorine/i.test(sentence))
      .filter((sentence) => /\b(\d+|half an|an)\b[^.]{0,12}\b(minutes|hours?)\b/.test(sentence))
      .map((sentence) => `${name}: ${sentence}`),
  );
  expect(written).toEqual([]);
});

it('how to thin a sample stands on one page; others link there', () => {
  const told = explainers.filter(({ body }) => /part of pool water/.test(body)).map(({ name }) => name);
  expect(told).toEqual(['free-chlorine']);
  const linking = explainers.filter(({ body }) => /thin the sample/.test(body));
  expect(linking.length).toBeGreaterThanOrEqual(2);
  for (const { body } of linking) expect(body).toMatch(/\/learn\/free-chlorine\//);
});

it('people stay out of the same pH', () => {
  const [, low, high] = /Stay out below ([\d.]+).*? above ([\d.]+)/.exec(bodyOf('ph'))!;
  expect(Number(low)).toBe(SWIM_PH.low);
  // Model Aquatic Health Code 6.6.3.1 (cmahc.org, section 2340).
  expect(Number(high)).toBe(8);
});

describe('sources', () => {
  const used = new Set(explainers.flatMap(({ front }) => front.sources));

  it('every source is used, and every one that is used is listed', () => {
    expect(Object.keys(sources).filter((id) => !used.has(id))).toEqual([]);
    expect([...used].filter((id) => !(id in sources))).toEqual([]);
  });

  it('what is known from memory alone are these few things', () => {
    const memory = Object.entries(sources).flatMap(([id, { status }]) => (status === 'memory' ? [id] : []));
    expect(memory).toEqual(['mahc-memory', 'ansi-11-memory', 'dilution-law', 'nec', 'alkalinity-pad', 'strip-eye']);
  });
});

it('links within the explainers lead to a heading that is there', () => {
  const slug = (heading: string) =>
    heading
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-');
  const dead = explainers.flatMap(({ name, body }) =>
    [...body.matchAll(/\]\((?:\/learn\/([a-z-]+)\/)?(?:#([^)]+))?\)/g)].flatMap(([link, page = name, anchor]) => {
      const target = explainers.find((each) => each.name === page);
      const anchors = target
        ? [...headings(target.body).map(slug), ...[...target.body.matchAll(/id="([^"]+)"/g)].map(([, id]) => id)]
        : [];
      return target && (anchor === undefined || anchors.includes(anchor)) ? [] : [`${name}: ${link}`];
    }),
  );
  expect(dead).toEqual([]);
});
