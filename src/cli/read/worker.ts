/** A reader in a thread of its own: a path comes, its answer goes. */
import { parentPort, workerData } from 'node:worker_threads';
import sharp from 'sharp';
import { type ReaderOptions, startReader } from './reader.ts';

// Each thread decodes by itself: more would only wait for each other.
sharp.concurrency(1);
const ask = startReader(workerData as ReaderOptions);
parentPort!.on('message', (path: string) => {
  void ask(path).then((answer) => parentPort!.postMessage(answer));
});
parentPort!.postMessage('ready');
