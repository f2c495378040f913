/// <reference lib="webworker" />
import { bitmapToPixels } from './bitmap.ts';
import { loadEngine } from './engine/browser.ts';
import type { WorkerRequest, WorkerResponse } from './messages.ts';

const port = self as unknown as DedicatedWorkerGlobalScope;

port.onmessage = ({ data }: MessageEvent<WorkerRequest>) => {
  answer(data).catch((error: unknown) => say({ kind: 'failed', message: String(error) }));
};

async function answer({ bitmap }: WorkerRequest): Promise<void> {
  say({ kind: 'stage', stage: 'start-engine' });
  await loadEngine();
  bitmapToPixels(bitmap);
  throw new Error('reading is not built yet');
}

function say(response: WorkerResponse, transfer: Transferable[] = []): void {
  port.postMessage(response, transfer);
}
