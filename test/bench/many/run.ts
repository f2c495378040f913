// `npm run many [-- PHOTOS]`: what the command `read` takes for each of many photos of 2 megapixels, beside decoding and a
// warm reading of the same photos one by one, in processor time and in time; and whether its memory stays. A bench.
import { spawn } from 'node:child_process';
import { linkSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { openPhotoAt } from '../../../src/cli/decode.ts';
import { loadScale } from '../../../src/cli/scales.ts';
import { readPhoto } from '../../../src/vision/read.ts';

const SCALE = 'practice-four';
const WIDTH = 1633;
const FLOOR_PHOTOS = 60;
const WARM_UPS = 10;
const LOOK_MILLIS = 500;

interface Cost {
  /** Seconds a photo. */
  readonly cpu: number;
  readonly wall: number;
}

const count = Number(process.argv[2] ?? 1000);
const folder = mkdtempSync(join(tmpdir(), 'dipwise-many-'));
try {
  const photos = await makePhotos();
  console.log(
    `${count} photos of 2 megapixels, ${availableParallelism()} processors, load ${loadavg()[0]!.toFixed(1)}`,
  );
  const before = await floor(photos);
  const command = await readAll();
  const after = await floor(photos);
  const base = { cpu: (before.cpu + after.cpu) / 2, wall: (before.wall + after.wall) / 2 };
  tell('decode and warm reading, one by one (before)', before);
  tell('decode and warm reading, one by one (after)', after);
  tell('the command, all processors', command);
  console.log(`processor time a photo: ${(command.cpu / base.cpu).toFixed(2)} times`);
  console.log(`time a photo and processor: ${((command.wall * availableParallelism()) / base.wall).toFixed(2)} times`);
} finally {
  rmSync(folder, { recursive: true });
}

function tell(what: string, { cpu, wall }: Cost): void {
  console.log(`${what}: ${(cpu * 1000).toFixed(1)} ms of processor, ${(wall * 1000).toFixed(1)} ms, a photo`);
}

/** The sample photos of one scale at one size, over and over under other names. */
async function makePhotos(): Promise<string[]> {
  const truth = JSON.parse(readFileSync('sample-images/truth.json', 'utf8')) as {
    photos: { file: string; scale: string }[];
  };
  const files = truth.photos.filter(({ scale }) => scale === SCALE).map(({ file }) => `sample-images/${file}`);
  const made: string[] = [];
  for (const [i, file] of files.entries()) {
    const path = join(folder, `original-${i}`);
    const jpeg = await sharp(file)
      .autoOrient()
      .resize({ width: WIDTH, height: 1225, fit: 'cover' })
      .jpeg({ quality: 92 });
    writeFileSync(path, await jpeg.toBuffer());
    made.push(path);
  }
  return Array.from({ length: count }, (_, i) => {
    const path = join(folder, `photo-${i}.jpg`);
    linkSync(made[i % made.length]!, path);
    return path;
  });
}

async function floor(photos: readonly string[]): Promise<Cost> {
  const scale = await loadScale(SCALE);
  const readOne = async (path: string) => {
    const opened = await openPhotoAt(path);
    if (opened.ok) readPhoto(opened.pixels, scale);
  };
  for (const path of photos.slice(0, WARM_UPS)) await readOne(path);
  const [cpu, started] = [process.cpuUsage(), performance.now()];
  for (const path of photos.slice(0, FLOOR_PHOTOS)) await readOne(path);
  const used = process.cpuUsage(cpu);
  const n = Math.min(FLOOR_PHOTOS, photos.length);
  return { cpu: (used.user + used.system) / 1e6 / n, wall: (performance.now() - started) / 1000 / n };
}

async function readAll(): Promise<Cost> {
  const report = join(folder, 'cpu.json');
  const hook = join(folder, 'hook.cjs');
  const told =
    "process.on('exit', () => require('fs').writeFileSync(process.env.CPU_FILE, JSON.stringify(process.cpuUsage())))";
  writeFileSync(hook, `if (require('worker_threads').isMainThread) ${told}`);
  const started = performance.now();
  const args = ['--require', hook, 'src/cli/read.ts', '--scale', SCALE, folder];
  const child = spawn(process.execPath, args, { env: { ...process.env, CPU_FILE: report } });
  const seen: number[] = [];
  const look = setInterval(() => seen.push(residentMb(child.pid!)), LOOK_MILLIS);
  let text = '';
  child.stdout.on('data', (part: Buffer) => (text += part.toString()));
  await new Promise((resolve) => child.on('close', resolve));
  clearInterval(look);
  const wall = (performance.now() - started) / 1000 / count;
  const read = text.match(/"outcome":"read"/g)?.length ?? 0;
  console.log(`${text.trimEnd().split('\n').length} answers, ${read} read`);
  const known = seen.filter(Number.isFinite);
  const part = (from: number, to: number) =>
    Math.max(...known.slice(Math.floor(known.length * from), Math.ceil(known.length * to))).toFixed(0);
  console.log(
    `resident, the most, MB: ${part(0, 0.1)} in the first tenth, ${part(0.1, 0.5)} in the first half, ${part(0.5, 1)} in the second`,
  );
  const { user, system } = JSON.parse(readFileSync(report, 'utf8')) as { user: number; system: number };
  return { cpu: (user + system) / 1e6 / count, wall };
}

/** NaN where the system doesn't tell. */
function residentMb(pid: number): number {
  try {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? NaN) / 1024;
  } catch {
    return NaN;
  }
}
