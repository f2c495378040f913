/// <reference lib="webworker" />
/** Looks into a file beside the page, which stays quick meanwhile. */
import '../zod-setup.ts';
import { type FileFindings, type FileQuestion, type FileStage, findInFile } from './read-file.ts';

export type FileAnswer =
  { readonly stage: FileStage } | { readonly findings: FileFindings } | { readonly failed: string };

const port = self as unknown as DedicatedWorkerGlobalScope;

port.onmessage = ({ data }: MessageEvent<FileQuestion>) => {
  findInFile(data, (stage) => say({ stage })).then(
    (findings) => say({ findings }),
    (error: unknown) => say({ failed: String(error) }),
  );
};

function say(message: FileAnswer): void {
  port.postMessage(message);
}
