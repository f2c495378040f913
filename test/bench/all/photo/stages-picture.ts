/** Where the time of a first reading goes: its stages one after the other, and in each how long it takes once warm. */
import type { StageFigure } from './measured.ts';

const ROW = 26;
const [LEFT, RIGHT, TOP] = [230, 640, 66];
const INK = '#2b2a27';
const FAINT = '#8a857a';
const PAPER = '#faf6ec';
const MAX_TICKS = 8;

export interface NamedStage extends Pick<StageFigure, 'warm' | 'cold'> {
  readonly name: string;
}

/**
 * A bar a stage, each beginning where the one before ended: solid as long as the stage takes warm, hollow what a first
 * reading takes beyond that. Length and words carry it, no colour does.
 * @param stages ms, in their order
 */
export function drawStages(stages: readonly NamedStage[], machine: string): string {
  const whole = stages.reduce((sum, { cold }) => sum + cold, 0);
  const x = (millis: number) => (LEFT + ((RIGHT - LEFT) * millis) / whole).toFixed(1);
  const bottom = TOP + stages.length * ROW;
  const step = [50, 100, 200, 500].find((millis) => whole / millis <= MAX_TICKS) ?? 1000;
  const ticks = Array.from({ length: Math.floor(whole / step) + 1 }, (_, i) => {
    const at = x(i * step);
    return `<path d="M${at} ${TOP - 8}V${bottom}" stroke="${FAINT}" stroke-width="0.5"/><text x="${at}" y="${bottom + 16}" text-anchor="middle" fill="${INK}">${i * step}</text>`;
  });
  let begun = 0;
  const bars = stages.map(({ name, warm, cold }, i) => {
    const [from, y] = [begun, TOP + i * ROW + 12];
    begun += cold;
    return [
      `<text x="${LEFT - 12}" y="${y + 4}" text-anchor="end" fill="${INK}">${name}</text>`,
      `<path d="M${x(from)} ${y - 6}H${x(begun)}V${y + 6}H${x(from)}Z" fill="${PAPER}" stroke="${INK}"/>`,
      `<path d="M${x(from)} ${y - 6}H${x(from + Math.min(warm, cold))}V${y + 6}H${x(from)}Z" fill="${INK}"/>`,
      `<text x="${(Number(x(begun)) + 8).toFixed(1)}" y="${y + 4}" fill="${INK}">${inWords({ warm, cold })}</text>`,
    ].join('');
  });
  const said = stages.map((stage) => `${stage.name}: ${inWords(stage)}`).join('; ');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 ${bottom + 50}" role="img" aria-labelledby="t d" font-family="Georgia, serif" font-size="12">
<title id="t">Where a first reading’s time goes, ms</title>
<desc id="d">${said}.</desc>
<rect width="760" height="${bottom + 50}" fill="${PAPER}"/>
<text x="20" y="26" font-size="16" fill="${INK}">Where a first reading’s time goes, ms</text>
<text x="20" y="44" fill="${INK}">A photo of 12 megapixels in the page. Solid: as long as it takes warm. Hollow: what the first one takes beyond that.</text>
${[...ticks, ...bars].join('\n')}
<text x="20" y="${bottom + 40}" font-size="11" fill="${FAINT}">${machine.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</text>
</svg>
`;
}

function inWords({ warm, cold }: Pick<StageFigure, 'warm' | 'cold'>): string {
  return `${cold.toFixed(0)}, warm ${warm.toFixed(0)}`;
}
