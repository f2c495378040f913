// `node test/bench/accuracy/picture.ts RESULTS.json OUT.svg`: the accuracy table as a drawing, from `--json` of the bench.
import { readFile, writeFile } from 'node:fs/promises';
import { scaleLinear } from 'd3-scale';
import type { Line } from './tables.ts';

const [from, to] = process.argv.slice(2);
if (!from || !to) {
  console.error('Usage: node test/bench/accuracy/picture.ts RESULTS.json OUT.svg');
  process.exit(2);
}

const ROW = 34;
const [LEFT, RIGHT, TOP] = [360, 690, 62];
const INK = '#2b2a27';
const FAINT = '#8a857a';

const { lines, readings } = JSON.parse(await readFile(from, 'utf8')) as { lines: Line[]; readings: number };
await writeFile(to, draw(lines, readings));

/** A bar to the mean, a hairline to the 95th percentile: length and words carry it, no colour does. */
function draw(rows: readonly Line[], count: number): string {
  const most = Math.max(...rows.map(({ all }) => all.p95Steps));
  const x = scaleLinear().domain([0, most]).nice().range([LEFT, RIGHT]);
  const height = TOP + rows.length * ROW + 46;
  const bottom = TOP + rows.length * ROW;
  const ticks = x.ticks(6).map((tick) => {
    const at = x(tick).toFixed(1);
    return `<path d="M${at} ${TOP - 8}V${bottom}" stroke="${FAINT}" stroke-width="0.5"/><text x="${at}" y="${bottom + 16}" text-anchor="middle" fill="${INK}">${tick}</text>`;
  });
  const bars = rows.map(({ name, all }, i) => {
    const y = TOP + i * ROW + 12;
    const [mean, far] = [x(all.meanSteps).toFixed(1), x(all.p95Steps).toFixed(1)];
    return `<text x="${LEFT - 12}" y="${y + 4}" text-anchor="end" fill="${INK}">${escaped(name)}</text><path d="M${LEFT} ${y - 5}H${mean}V${y + 5}H${LEFT}Z" fill="${INK}"/><path d="M${mean} ${y}H${far}M${far} ${y - 5}V${y + 5}" stroke="${INK}" fill="none"/><text x="${Number(far) + 8}" y="${y + 4}" fill="${INK}">${all.meanSteps.toFixed(2)}, ${all.p95Steps.toFixed(2)}</text>`;
  });
  const words = rows.map(
    ({ name, all }) => `${name}: mean ${all.meanSteps.toFixed(2)}, 95 % ${all.p95Steps.toFixed(2)}`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 ${height}" role="img" aria-labelledby="t d" font-family="Georgia, serif" font-size="12">
<title id="t">Errors of readings in simulation, in steps between neighbouring blocks</title>
<desc id="d">${escaped(words.join('; '))}.</desc>
<rect width="760" height="${height}" fill="#faf6ec"/>
<text x="20" y="26" font-size="16" fill="${INK}">How far readings are off, in simulation</text>
<text x="20" y="44" fill="${INK}">Steps between neighbouring blocks: the bar ends at the mean, the line at the 95th percentile.</text>
${[...ticks, ...bars].join('\n')}
<text x="20" y="${height - 10}" fill="${FAINT}">${count} readings a line; npm run accuracy -- ${count}</text>
</svg>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}
