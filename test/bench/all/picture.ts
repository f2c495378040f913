/** The ratios as a drawing: bars against a line at 1. Length, notches and words carry it, no colour does. */
import { scaleLog } from 'd3-scale';
import type { Ratio } from './section.ts';

const ROW = 26;
const [LEFT, RIGHT, TOP] = [330, 650, 66];
const INK = '#2b2a27';
const FAINT = '#8a857a';
const PAPER = '#faf6ec';
const TICKS = [0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30, 100, 300, 1000];

/**
 * Bars begin at 1, where ours takes as long as the floor or the peer: to the right more, to the left less. A notch
 * stands at what is wanted. The axis is logarithmic, so that twice and half are as long.
 * @param ratios above 0; what wasn't measured is named without a bar
 * @param machine one line about where it was measured
 */
export function drawRatios(ratios: readonly Ratio[], machine: string): string {
  const known = ratios
    .flatMap(({ ratio, wanted }) => [ratio, wanted ?? 1])
    .filter((value) => value > 0 && value < Infinity);
  const x = scaleLog()
    .domain([Math.min(0.8, ...known), Math.max(1.25, ...known)])
    .range([LEFT, RIGHT]);
  const bottom = TOP + ratios.length * ROW;
  const height = bottom + 50;
  const [from, to] = x.domain() as [number, number];
  const ticks = TICKS.filter((tick) => tick >= from && tick <= to).map((tick) => {
    const at = x(tick).toFixed(1);
    return `<path d="M${at} ${TOP - 8}V${bottom}" stroke="${tick === 1 ? INK : FAINT}" stroke-width="${tick === 1 ? 1 : 0.5}"/><text x="${at}" y="${bottom + 16}" text-anchor="middle" fill="${INK}">${tick}</text>`;
  });
  const bars = ratios.map((one, i) => bar(one, TOP + i * ROW + 12, x));
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 ${height}" role="img" aria-labelledby="t d" font-family="Georgia, serif" font-size="12">
<title id="t">What ours takes, in times of the floor or of the peer</title>
<desc id="d">${escaped(ratios.map(inWords).join('; '))}.</desc>
<rect width="760" height="${height}" fill="${PAPER}"/>
<text x="20" y="26" font-size="16" fill="${INK}">Beside the floor and the peers</text>
<text x="20" y="44" fill="${INK}">Bars begin at 1: as much as the floor or the peer. The notch stands at the most that is wanted.</text>
${[...ticks, ...bars].join('\n')}
<text x="20" y="${height - 10}" font-size="10" fill="${FAINT}">${escaped(machine)}</text>
</svg>
`;
}

function bar({ name, ratio, wanted }: Ratio, y: number, x: (value: number) => number): string {
  const label = `<text x="${LEFT - 12}" y="${y + 4}" text-anchor="end" fill="${INK}">${escaped(name)}</text>`;
  const one = x(1).toFixed(1);
  if (!isDrawn(ratio)) return `${label}<text x="${Number(one) + 8}" y="${y + 4}" fill="${INK}">not measured</text>`;
  const end = x(ratio).toFixed(1);
  const notch =
    wanted === null ? '' : `<path d="M${x(wanted).toFixed(1)} ${y - 9}V${y + 9}" stroke="${INK}" stroke-width="2"/>`;
  const after = Math.max(x(ratio), x(1), wanted === null ? 0 : x(wanted)) + 8;
  const words = `${times(ratio)}${isMissed({ ratio, wanted }) ? ' not met' : ''}`;
  return `${label}<path d="M${one} ${y - 5}H${end}V${y + 5}H${one}Z" fill="${INK}"/>${notch}<text x="${after.toFixed(1)}" y="${y + 4}" fill="${INK}">${words}</text>`;
}

function inWords({ name, ratio, wanted }: Ratio): string {
  if (!isDrawn(ratio)) return `${name}: not measured`;
  const asked = wanted === null ? '' : `, wanted at most ${wanted}, ${isMissed({ ratio, wanted }) ? 'not met' : 'met'}`;
  return `${name}: ${times(ratio)}${asked}`;
}

function isDrawn(ratio: number): boolean {
  return ratio > 0 && ratio < Infinity;
}

function isMissed({ ratio, wanted }: Pick<Ratio, 'ratio' | 'wanted'>): boolean {
  return wanted !== null && ratio > wanted;
}

function times(ratio: number): string {
  return ratio >= 0.1 ? ratio.toFixed(2) : ratio.toPrecision(2);
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}
