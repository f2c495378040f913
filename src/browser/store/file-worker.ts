/// <reference lib="webworker" />
/** Looks into files, brings them in and takes them back beside the page, which stays quick meanwhile. */
import '../zod-setup.ts';
import type { StoreFailure } from '../../core/log/store-failure.ts';
import { toStoreError } from './failure.ts';
import { type BringIn, type ChosenFile, type Desk, FileDesk, type TakeBack } from './file-desk.ts';
import { openIdbStore } from './idb-store.ts';
import type { FileStage } from './read-file.ts';

export type FileRequest =
  | { readonly does: 'look'; readonly about: ChosenFile }
  | { readonly does: 'bringIn'; readonly about: BringIn }
  | { readonly does: 'takeBack'; readonly about: TakeBack };

export type FileAnswer =
  | { readonly stage: FileStage }
  | { readonly done: Awaited<ReturnType<Desk['look' | 'bringIn' | 'takeBack']>> }
  | { readonly failed: StoreFailure; readonly why: string };

const port = self as unknown as DedicatedWorkerGlobalScope;
const nothing = () => undefined;
const desk = openIdbStore({ onBlocked: nothing, onTakenOver: nothing, onEmptied: nothing }).then(
  (store) => new FileDesk(store, (stage) => say({ stage })),
);

port.onmessage = ({ data }: MessageEvent<FileRequest>) => {
  answer(data).then(
    (done) => say({ done }),
    (error: unknown) => say({ failed: toStoreError(error).failure, why: String(error) }),
  );
};

async function answer(request: FileRequest) {
  switch (request.does) {
    case 'look':
      return (await desk).look(request.about);
    case 'bringIn':
      return (await desk).bringIn(request.about);
    case 'takeBack':
      return (await desk).takeBack(request.about);
  }
}

function say(message: FileAnswer): void {
  port.postMessage(message);
}
