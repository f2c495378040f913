/** The commands where what they write to goes away, and where what they read is far too much. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'dipwise-pipe-'));
const photo = 'sample-images/overcast-deck.jpg';

/** Runs a command whose reader goes as soon as it has seen the first line. */
async function readOneLine(script: string, args: readonly string[], input = '') {
  const child = spawn(process.execPath, [`src/cli/${script}.ts`, ...args]);
  let stderr = '';
  child.stderr.on('data', (text: Buffer) => (stderr += text.toString()));
  child.stdin.on('error', () => undefined);
  child.stdin.end(input);
  child.stdout.once('data', () => child.stdout.destroy());
  const status = await new Promise<number | null>((resolve) => child.on('close', resolve));
  return { status, stderr };
}

describe('a command whose answers are no longer read', () => {
  it('writes all of the card', async () => {
    const out = join(folder, 'card');
    expect(await readOneLine('card', ['--out', out])).toEqual({ status: 0, stderr: '' });
    expect(readdirSync(out)).toHaveLength(10);
  });

  it('reads no more photos, and says by its end that some are left', async () => {
    expect(await readOneLine('read', ['--scale', 'practice-four', ...Array<string>(40).fill(photo)])).toEqual({
      status: 1,
      stderr: '',
    });
  });

  it('answers no more waters', async () => {
    const water = '{"ph":7.6,"totalAlkalinity":90,"calciumHardness":200,"temperatureC":26}\n';
    expect((await readOneLine('water', [], water.repeat(20_000))).stderr).toBe('');
  });
});

describe('a file of 1.9 GB', () => {
  const huge = join(folder, 'huge.jpg');
  writeFileSync(huge, readFileSync(photo));
  truncateSync(huge, 1_900_000_000);

  it('is refused before it is read', async () => {
    // As much as the engine takes by itself, and no more: a report of Node's own holds what the run took.
    const report = join(folder, 'memory.cjs');
    const told = join(folder, 'memory.json');
    writeFileSync(
      report,
      `process.on('exit', () => require('fs').writeFileSync(${JSON.stringify(told)}, String(process.resourceUsage().maxRSS)))`,
    );
    const child = spawn(process.execPath, ['--require', report, 'src/cli/read.ts', huge]);
    let stdout = '';
    child.stdout.on('data', (text: Buffer) => (stdout += text.toString()));
    const status = await new Promise<number | null>((resolve) => child.on('close', resolve));
    expect(JSON.parse(stdout)).toMatchObject({ outcome: 'refused', reasons: [{ code: 'too-heavy' }] });
    expect(status).toBe(1);
    // Kilobytes: a third of the file. The engine alone takes 380 to 410 MB, depending on when memory is given back.
    expect(Number(readFileSync(told, 'utf8'))).toBeLessThan(630_000);
  });

  it('is no scale', async () => {
    const { status, stderr } = await readOneLine('read', ['--scale', huge, photo]);
    expect(status).toBe(2);
    expect(stderr).toContain('larger than 20 MB');
  });
});
