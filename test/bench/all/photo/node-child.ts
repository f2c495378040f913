// `node node-child.ts cold|warm|decode PHOTO SCALE ROUNDS`: a process of its own for each measure, as memory never goes
// back to what it was. Says one line of JSON.
import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { openPhoto } from '../../../../src/cli/decode.ts';
import { loadScale } from '../../../../src/cli/scales.ts';
import { readPhoto } from '../../../../src/vision/read.ts';

/** A stage with the time it took, and the memory the process held at its end. */
export interface NodeStage {
  readonly stage: string;
  readonly millis: number;
  readonly rssMB: number;
}

export interface NodeRun {
  readonly valuesMillis: number;
  readonly stages: readonly NodeStage[];
}

export interface NodeAnswer {
  readonly beforeMB: number;
  readonly peakMB: number;
  readonly runs: readonly NodeRun[];
  /** The plain decode, each round. */
  readonly decodes: readonly number[];
}

const [mode, path, scaleId, rounds] = process.argv.slice(2);
const scale = await loadScale(scaleId!);
const file = await readFile(path!);
const rssMB = () => process.memoryUsage.rss() / 1e6;
const beforeMB = rssMB();
const runs: NodeRun[] = [];
const decodes: number[] = [];
if (mode === 'cold') {
  runs.push(await read());
  // The floor of the same moment, warm: the first one doesn't count.
  for (let round = 0; round < 2; round++) decodes.push(await plainDecode());
} else {
  for (let round = 0; round < Number(rounds); round++) {
    decodes.push(await plainDecode());
    if (mode === 'warm') runs.push(await read());
  }
}
const peakMB = process.resourceUsage().maxRSS / 1000;
console.log(JSON.stringify({ beforeMB, peakMB, runs, decodes } satisfies NodeAnswer));

/** From the file's bytes to its values. */
async function read(): Promise<NodeRun> {
  const stages: NodeStage[] = [];
  const started = performance.now();
  let [stage, since] = ['open', started];
  const next = (name: string) => {
    const now = performance.now();
    stages.push({ stage, millis: now - since, rssMB: rssMB() });
    [stage, since] = [name, now];
  };
  const opened = await openPhoto(file);
  if (!opened.ok) throw new Error(`the photo can't be opened: ${opened.failure}`);
  const { reading } = readPhoto(opened.pixels, scale, next);
  next('');
  if (reading.outcome !== 'read') throw new Error(`the photo was refused: ${reading.reasons.join(', ')}`);
  return { valuesMillis: performance.now() - started, stages };
}

async function plainDecode(): Promise<number> {
  const started = performance.now();
  await sharp(file).ensureAlpha().raw().toBuffer();
  return performance.now() - started;
}
