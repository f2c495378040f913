import { describe, expect, it } from 'vitest';
import { drawChart, type ChartData, type Panel } from '../../../src/components/log/chart.ts';
import { type SvgNode, toMarkup } from '../../../src/components/svg.ts';
import type { TrendPoint } from '../../../src/core/log/trends.ts';

const DAY = 86_400_000;
const START = Date.parse('2026-06-01T00:00:00.000Z');
const time = (day: number) => new Date(START + day * DAY).toISOString();

function point(day: number, value: number, rest: Partial<TrendPoint> = {}): TrendPoint {
  const span = { low: value - 1, high: value + 1, openBelow: false, openAbove: false };
  const said = { word: null, otherWord: null, isSure: null };
  return { entryId: `e${day}`, time: time(day), value, ...span, offScale: null, byHand: false, said, ...rest };
}

function panel(points: readonly TrendPoint[], target: Panel['target'] = { low: 2, high: 6 }): Panel {
  return { quantity: 'free-chlorine', title: 'Free chlorine, mg/L', points, target };
}

function draw(panels: readonly Panel[], rest: Partial<ChartData> = {}): SvgNode[] {
  const data = { panels, additions: [], from: time(0), to: time(10), width: 560, description: 'A chart', ...rest };
  return all(drawChart(data));
}

function all(node: SvgNode | string): SvgNode[] {
  return typeof node === 'string' ? [] : [node, ...node.children.flatMap(all)];
}

const named = (nodes: readonly SvgNode[], name: string) =>
  nodes.filter(({ attributes }) =>
    String(attributes['class'] ?? '')
      .split(' ')
      .includes(name),
  );
const number = (node: SvgNode, attribute: string) => Number(node.attributes[attribute]);

describe('the chart', () => {
  it('places points in proportion, time to the right and values up', () => {
    const marks = named(draw([panel([point(0, 2), point(5, 4), point(10, 6)])]), 'mark');
    const [x0, x1, x2] = marks.map((mark) => number(mark, 'cx')) as [number, number, number];
    const [y0, y1, y2] = marks.map((mark) => number(mark, 'cy')) as [number, number, number];
    expect(x1 - x0).toBeCloseTo(x2 - x1, 0);
    expect(y0 - y1).toBeCloseTo(y1 - y2, 0);
    expect(y2).toBeLessThan(y0);
    expect(x2 - x0).toBeGreaterThan(400);
  });

  it('puts the target where values of its ends would lie', () => {
    const nodes = draw([panel([point(0, 2), point(10, 6)])]);
    const edges = named(nodes, 'target').map((edge) => number(edge, 'y1'));
    const marks = named(nodes, 'mark').map((mark) => number(mark, 'cy'));
    expect(Math.max(...edges)).toBeCloseTo(marks[0]!, 0);
    expect(Math.min(...edges)).toBeCloseTo(marks[1]!, 0);
  });

  it('shares one time axis between panels and additions', () => {
    const nodes = draw([panel([point(5, 3)]), panel([point(5, 7)])], { additions: [{ time: time(5), letter: 'A' }] });
    const xs = named(nodes, 'mark').map((mark) => number(mark, 'cx'));
    expect(new Set([...xs, number(named(nodes, 'addition')[0]!, 'x1')]).size).toBe(1);
    expect(toMarkup(named(nodes, 'letter')[0]!)).toContain('>A<');
  });

  it('writes no letter over another, and none twice at one place', () => {
    const additions = [
      { time: time(5), letter: 'A' },
      { time: time(5.01), letter: 'C' },
      { time: time(5.02), letter: 'A' },
      { time: time(8), letter: 'A' },
    ];
    const letters = named(draw([panel([point(5, 3)])], { additions }), 'letter');
    expect(letters.map(({ children }) => children[0])).toEqual(['A', 'C', 'A']);
    const [first, second, third] = letters.map((letter) => number(letter, 'y')) as [number, number, number];
    expect(second - first).toBeGreaterThan(10);
    expect(third).toBe(first);
  });

  it('frames where a dose was to bring the water, about the point that tells of it', () => {
    const prediction = { from: time(4.9), to: time(5), low: 4, high: 5 };
    const nodes = draw([{ ...panel([point(5, 4.5)]), predictions: [prediction] }]);
    const [frame, mark] = [named(nodes, 'predicted')[0]!, named(nodes, 'mark')[0]!];
    const [left, top] = [number(frame, 'x'), number(frame, 'y')];
    expect(left).toBeLessThan(number(mark, 'cx') - 3.4);
    expect(left + number(frame, 'width')).toBeGreaterThan(number(mark, 'cx') + 3.4);
    expect(top).toBeLessThan(number(mark, 'cy'));
    expect(top + number(frame, 'height')).toBeGreaterThan(number(mark, 'cy'));
  });

  it('tells kinds of points apart by their shape', () => {
    const points = [
      point(1, 3),
      point(2, 3, { byHand: true }),
      point(3, 10, { offScale: 'above' }),
      point(4, 0.5, { offScale: 'below' }),
    ];
    const shapes = named(draw([panel(points)]), 'mark').map(({ tag, attributes }) =>
      tag === 'circle' ? 'circle' : String(attributes['d']).replace(/[\d.]+/g, '#'),
    );
    expect(new Set(shapes).size).toBe(4);
  });

  it('draws whiskers for a few points and a band for many', () => {
    const few = draw([panel([point(1, 3), point(2, 4)])]);
    expect(named(few, 'whisker')).toHaveLength(2);
    expect(named(few, 'band')).toHaveLength(0);
    const many = draw([panel(Array.from({ length: 1000 }, (_, i) => point(i / 100, 3 + (i % 7) / 10)))]);
    expect(named(many, 'whisker')).toHaveLength(0);
    expect(named(many, 'band')).toHaveLength(1);
    expect(many.length).toBeLessThan(60);
  });

  it('leaves the line open over weeks without a reading', () => {
    const lines = named(
      draw([panel([point(0, 3), point(1, 3), point(40, 3), point(41, 3)])], { to: time(41) }),
      'line',
    );
    expect(String(lines[0]!.attributes['d']).match(/M/g)).toHaveLength(2);
  });

  it('stands a single point and equal values', () => {
    for (const points of [[point(3, 0, { low: 0, high: 0 })], [point(1, 7), point(2, 7)]]) {
      expect(
        draw([panel(points, null)])
          .map(toMarkup)
          .join(''),
      ).not.toMatch(/NaN|Infinity/);
    }
  });
});
