/** How firmly the browser holds on to what is kept, and how much of it there is. */
import { remember, remembered } from '../remembered.ts';

const ASKED_KEY = 'asked-to-persist';

/** Once, after the first thing worth keeping: some browsers put the question to the visitor. */
export async function askToPersist(): Promise<void> {
  if (remembered(ASKED_KEY) !== null) return;
  remember(ASKED_KEY, 'yes');
  await persist();
}

/** @returns whether the browser has promised not to clear the store by itself; null where it makes no promises */
export async function persist(): Promise<boolean | null> {
  try {
    return (await navigator.storage?.persist?.()) ?? null;
  } catch {
    return null;
  }
}

export async function isPersisted(): Promise<boolean | null> {
  try {
    return (await navigator.storage?.persisted?.()) ?? null;
  } catch {
    return null;
  }
}

export interface Usage {
  readonly usedBytes: number;
  readonly roomBytes: number;
}

export async function usage(): Promise<Usage | null> {
  try {
    const { usage: usedBytes, quota: roomBytes } = await navigator.storage.estimate();
    return usedBytes === undefined || roomBytes === undefined ? null : { usedBytes, roomBytes };
  } catch {
    return null;
  }
}
