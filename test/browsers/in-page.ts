/** What is done inside the read page, in whatever browser shows it. */

export interface PageFile {
  readonly name: string;
  readonly type: string;
  readonly base64: string;
  /** Id of a practice scale. */
  readonly scale: string;
}

export interface PagePad {
  readonly parameter: string;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly lab: readonly [number, number, number];
}

export interface PageAnswer {
  readonly outcome: 'read' | 'refused' | 'silent';
  /** Of a refusal. */
  readonly sentence: string;
  readonly pads: readonly PagePad[];
  /** From handing over the file to the sheet or the refusal. */
  readonly millis: number;
  /** From handing over the file to the values; NaN without any. */
  readonly valuesMillis: number;
  /** When each stage began, ms from handing over the file. */
  readonly stages: readonly PageStage[];
}

export interface PageStage {
  readonly stage: string;
  readonly millis: number;
}

interface Said {
  kind: string;
  stage?: string;
  at?: number;
  result?: { reading: { outcome: string; pads?: PagePad[] } };
}

/** From now on it is known what the page's workers say, and when: also those that run already. Sent as text too. */
export async function hearWorkers(): Promise<void> {
  const page = window as unknown as { said?: Said[] };
  if (page.said) return;
  const said: Said[] = (page.said = []);
  const heard = new WeakSet<Worker>();
  const post = Worker.prototype.postMessage as (this: Worker, ...all: unknown[]) => void;
  Worker.prototype.postMessage = function (this: Worker, ...all: unknown[]) {
    if (!heard.has(this))
      this.addEventListener('message', ({ data }: MessageEvent<Said>) => said.push({ ...data, at: performance.now() }));
    heard.add(this);
    post.apply(this, all);
  };
}

/**
 * Hands the file to the page as a person does, and waits for what the page then shows. Sent to the browser as text, so
 * it must stand alone. The pads are those of the page's own worker: `hearWorkers` comes first.
 */
export async function readInPage({ name, type, base64, scale }: PageFile): Promise<PageAnswer> {
  const { said } = window as unknown as { said: Said[] };
  said.length = 0;
  const select = document.querySelector<HTMLSelectElement>('#scale')!;
  select.value = scale;
  // Letter by letter takes longer than the reading.
  const native = Uint8Array as unknown as { fromBase64?(text: string): Uint8Array<ArrayBuffer> };
  const bytes = native.fromBase64?.(base64) ?? Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const transfer = new DataTransfer();
  transfer.items.add(new File([bytes], name, { type }));
  const input = document.querySelector<HTMLInputElement>('#photo')!;
  document.querySelector('.result')!.replaceChildren();
  input.files = transfer.files;
  const started = performance.now();
  const result = document.querySelector('.result')!;
  await new Promise<void>((resolve) => {
    const look = () => result.querySelector('.refusal, .reading-sheet') && done();
    const watcher = new MutationObserver(look);
    const timer = setTimeout(() => done(), 60_000);
    const done = () => {
      clearTimeout(timer);
      watcher.disconnect();
      resolve();
    };
    watcher.observe(result, { childList: true });
    input.dispatchEvent(new Event('change'));
  });
  const millis = performance.now() - started;
  const refusal = result.querySelector('.refusal');
  if (refusal)
    return {
      outcome: 'refused',
      sentence: refusal.querySelector('.wrong')!.textContent,
      pads: [],
      millis,
      valuesMillis: NaN,
      stages: [],
    };
  if (!result.querySelector('.reading-sheet'))
    return { outcome: 'silent', sentence: '', pads: [], millis, valuesMillis: NaN, stages: [] };
  const done = said.find(({ kind }) => kind === 'done')!;
  const pads = done.result!.reading.pads!.map(({ parameter, value, low, high, lab }) => ({
    parameter,
    value,
    low,
    high,
    lab,
  }));
  const stages = said
    .filter(({ kind }) => kind === 'stage')
    .map(({ stage, at }) => ({ stage: stage!, millis: at! - started }));
  return { outcome: 'read', sentence: '', pads, millis, valuesMillis: done.at! - started, stages };
}
