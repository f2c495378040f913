/** What a command prints. The program that reads the pipe may have ended, as `head` does: that is no error. */

/** How a command ends. Documented in README.md; scripts rely on it. */
export const EXIT = {
  /** Everything that was asked for was done. */
  done: 0,
  /** Some of it was refused, missing or left undone; the answers say which. */
  partly: 1,
  /** The command was asked in a way it doesn't know, or for something that can't be written. */
  wrongUse: 2,
} as const;

let isOpen = true;

for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    isOpen = false;
    if (error.code === 'EPIPE') return;
    process.exitCode = EXIT.partly;
    if (stream === process.stdout) console.error(`The answers can't be written: ${error.message}`);
  });
}

/** How a command is called: by npm in the project's folder, by its own name where the package is installed. */
export function called(command: string): string {
  return import.meta.url.endsWith('.ts') ? `npm run --silent ${command} --` : `dipwise ${command}`;
}

/** @returns false once nobody reads the answers any more */
export async function print(line: string): Promise<boolean> {
  if (!isOpen) return false;
  if (!process.stdout.write(`${line}\n`)) await drained();
  // A broken pipe is told after the write.
  await new Promise((resolve) => setImmediate(resolve));
  return isOpen;
}

/** What reads the answers may be slower than what makes them: they aren't heaped up. */
async function drained(): Promise<void> {
  const { stdout } = process;
  await new Promise<void>((resolve) => {
    const settle = () => {
      for (const event of ['drain', 'error', 'close']) stdout.off(event, settle);
      resolve();
    };
    for (const event of ['drain', 'error', 'close']) stdout.on(event, settle);
  });
}
