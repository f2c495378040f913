/** Photo to values in Node, each measure in a process of its own. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { median, spreadOf } from '../section.ts';
import { type Measured, overRuns } from './measured.ts';
import type { NodeAnswer } from './node-child.ts';
import type { SizedPhoto } from './photos.ts';

const CHILD = fileURLToPath(new URL('node-child.ts', import.meta.url));
/** Rounds that don't count. */
const WARMING = 6;

export function measureInNode(photo: SizedPhoto, rounds: number): Measured {
  const warm = run('warm', photo, WARMING + rounds);
  const colds = Array.from({ length: rounds }, () => run('cold', photo, 1));
  const warmRuns = warm.runs.slice(WARMING).map(({ stages }) => stages);
  const coldRuns = colds.map(({ runs, beforeMB }) =>
    runs[0]!.stages.map((stage) => ({ ...stage, overMB: stage.rssMB - beforeMB })),
  );
  return {
    photo,
    decode: median(warm.decodes.slice(WARMING)),
    warm: median(warm.runs.slice(WARMING).map(({ valuesMillis }) => valuesMillis)),
    cold: median(colds.map(({ runs }) => runs[0]!.valuesMillis)),
    times: {
      warm: spreadOf(warm.runs.map((one, i) => one.valuesMillis / warm.decodes[i]!).slice(WARMING)),
      cold: spreadOf(colds.map(({ runs, decodes }) => runs[0]!.valuesMillis / decodes.at(-1)!)),
    },
    beforeMB: median(colds.map(({ beforeMB }) => beforeMB)),
    peakMB: median(colds.map(({ peakMB }) => peakMB)),
    stages: coldRuns[0]!.map(({ stage }) => ({
      stage,
      warm: overRuns(warmRuns, stage, ({ millis }) => millis),
      cold: overRuns(coldRuns, stage, ({ millis }) => millis),
      overMB: overRuns(coldRuns, stage, ({ overMB }) => overMB),
    })),
  };
}

function run(mode: 'cold' | 'warm', { path, scale }: SizedPhoto, rounds: number): NodeAnswer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CHILD, mode, path, scale, `${rounds}`], {
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  if (status !== 0) throw new Error(`the measuring process failed: ${stderr}`);
  return JSON.parse(stdout) as NodeAnswer;
}
