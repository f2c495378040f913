/** Where it was measured. */
import { cpus, loadavg, release, totalmem, type } from 'node:os';
import { spawnSync } from 'node:child_process';
import { presentChromium } from '../../browser.mjs';

/** One line: processor, cores, memory, system, Node, Chromium, and how busy the machine was. */
export function describeMachine(): string {
  const cores = cpus();
  const memory = `${(totalmem() / 2 ** 30).toFixed(0)} GiB`;
  const load = `load ${loadNow().toFixed(1)} at the start`;
  const system = `${type()} ${release().split('-')[0]}`;
  const model = cores[0]?.model.trim() || 'unknown processor';
  return `${model}, ${cores.length} cores, ${memory}, ${system}, Node ${process.versions.node}, ${chromiumVersion()}, ${load}`;
}

/** Processes that ran or waited to run, on average over the last minute. */
export function loadNow(): number {
  return loadavg()[0]!;
}

function chromiumVersion(): string {
  const path = presentChromium() as string | null;
  const said = path ? spawnSync(path, ['--version'], { encoding: 'utf8' }).stdout.trim() : '';
  return /^\S+(?: \S+)*? [\d.]+/.exec(said)?.[0] ?? 'no Chromium';
}
