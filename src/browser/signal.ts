/** Short sounds and vibrations, where the device and the visitor's settings allow them. */
import { settings } from './settings.ts';

/** Notes one after the other, Hz, and the vibration that goes with them, ms on, off, on. */
interface Signal {
  readonly notes: readonly number[];
  readonly vibration: readonly number[];
}

export const SIGNALS = {
  step: { notes: [660], vibration: [120] },
  now: { notes: [660, 880], vibration: [180, 90, 180] },
  over: { notes: [440, 330], vibration: [400] },
} as const satisfies Record<string, Signal>;

const NOTE_SECONDS = 0.18;
const LOUDNESS = 0.25;

let context: AudioContext | null = null;

/** Browsers let a page sound only after a press: call this from one. */
export function readySignals(): void {
  if (!settings.sound()) return;
  try {
    context ??= new AudioContext();
    void context.resume().catch(() => undefined);
  } catch {
    // No sound on this device: the words and the vibration remain.
  }
}

export function give(signal: keyof typeof SIGNALS): void {
  if (!settings.sound()) return;
  const { notes, vibration } = SIGNALS[signal];
  if ('vibrate' in navigator) navigator.vibrate([...vibration]);
  if (context?.state !== 'running') return;
  notes.forEach((hertz, i) => sound(context!, hertz, context!.currentTime + i * NOTE_SECONDS));
}

function sound(audio: AudioContext, hertz: number, at: number): void {
  const tone = new OscillatorNode(audio, { type: 'triangle', frequency: hertz });
  const volume = new GainNode(audio, { gain: 0 });
  volume.gain.setValueAtTime(0, at);
  volume.gain.linearRampToValueAtTime(LOUDNESS, at + 0.02);
  volume.gain.linearRampToValueAtTime(0, at + NOTE_SECONDS);
  tone.connect(volume).connect(audio.destination);
  tone.start(at);
  tone.stop(at + NOTE_SECONDS);
}
