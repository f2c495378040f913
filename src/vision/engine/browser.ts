/** Starts the engine in a browser's module worker. */
import factory from 'virtual:opencv';
import wasmUrl from 'virtual:opencv.wasm';
import { type Cv, startEngine } from './opencv.ts';

let starting: Promise<Cv> | null = null;

/** Starts once and keeps the engine; after a failure the next call tries again. */
export function loadEngine(): Promise<Cv> {
  starting ??= start().catch((error: unknown) => {
    starting = null;
    throw error;
  });
  return starting;
}

async function start(): Promise<Cv> {
  const module = await compile();
  return startEngine(factory, (imports) => new WebAssembly.Instance(module, imports as WebAssembly.Imports));
}

let onMended: (() => void) | null = null;

export function onMendedEngine(listener: () => void): void {
  onMended = listener;
}

/** While a host is updated it may answer with a page, which the browser may cache for a year: the retry bypasses the cache. */
async function compile(): Promise<WebAssembly.Module> {
  try {
    return await compiled(await fetch(wasmUrl));
  } catch {
    const module = await compiled(await fetch(wasmUrl, { cache: 'reload' }));
    onMended?.();
    return module;
  }
}

async function compiled(response: Response): Promise<WebAssembly.Module> {
  if (!response.ok) throw new Error(`the engine could not be fetched: ${response.status}`);
  const streamable = response.headers.get('content-type')?.startsWith('application/wasm');
  return streamable ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}
