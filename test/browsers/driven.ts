/** A browser that can be told what to do, whatever protocol it speaks. */
export interface DrivenBrowser {
  readonly name: string;
  readonly version: string;
  open(url: string): Promise<void>;
  /** Runs a function in the page; it is sent as text, so it must stand alone. */
  run<Argument, Answer>(work: (argument: Argument) => Promise<Answer>, argument: Argument): Promise<Answer>;
  /** What the console said was an error since it was asked last; null where it can't be heard. */
  takeErrors(): string[] | null;
  close(): Promise<void>;
}

/** Why a browser can't be driven here; the others go on. */
export class NotHere extends Error {
  override readonly name = 'NotHere';
}
