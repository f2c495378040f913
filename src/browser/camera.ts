/** The rear camera: opened, photographed with, and let go. Without one, why. */

import type { CameraFailure } from '../core/capture/failure.ts';

export type CameraOpened =
  { readonly ok: true; readonly camera: Camera } | { readonly ok: false; readonly failure: CameraFailure };

export interface Shot {
  /** As the camera saved it; made from the bitmap, only to be looked at, where there is one. */
  readonly blob: Blob;
  /** A full frame of the video, where the camera takes no photos of its own. */
  readonly bitmap: ImageBitmap | null;
  /** Milliseconds since 1970. */
  readonly takenAt: number;
}

/** What the preview asks for where photos are taken apart from it, and where its frames are the photos. */
const PREVIEW_SIZE = { width: { ideal: 1920 }, height: { ideal: 1440 } };
const LARGEST_SIZE = { width: { ideal: 4096 }, height: { ideal: 3072 } };
/** Some cameras never answer. */
const MAX_PHOTO_MILLIS = 4000;

/** Why no camera can be opened here, as far as is known before asking for it. */
export function cameraHindrance(): CameraFailure | null {
  if (!isSecureContext) return 'insecure';
  return typeof navigator.mediaDevices?.getUserMedia === 'function' ? null : 'unsupported';
}

export async function openCamera(): Promise<CameraOpened> {
  const failure = cameraHindrance();
  if (failure) return { ok: false, failure };
  const size = 'ImageCapture' in globalThis ? PREVIEW_SIZE : LARGEST_SIZE;
  try {
    const video = { facingMode: { ideal: 'environment' }, ...size };
    return { ok: true, camera: new Camera(await navigator.mediaDevices.getUserMedia({ video, audio: false })) };
  } catch (error) {
    return { ok: false, failure: failureOf(error) };
  }
}

/* The names that Media Capture and Streams (W3C), section 10.2, gives to what goes wrong. */
function failureOf(error: unknown): CameraFailure {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'denied';
  return name === 'NotFoundError' || name === 'OverconstrainedError' ? 'no-camera' : 'busy';
}

export class Camera {
  readonly stream: MediaStream;
  readonly #track: MediaStreamTrack;

  constructor(stream: MediaStream) {
    this.stream = stream;
    this.#track = stream.getVideoTracks()[0]!;
  }

  /** Called when the device takes the camera away. */
  set onEnded(listener: () => void) {
    this.#track.addEventListener('ended', listener);
  }

  get hasTorch(): boolean {
    const capabilities = this.#track.getCapabilities?.() as { torch?: boolean } | undefined;
    return capabilities?.torch === true;
  }

  async setTorch(on: boolean): Promise<void> {
    const torch = { torch: on } as MediaTrackConstraintSet;
    await this.#track.applyConstraints({ advanced: [torch] });
  }

  /** The best picture that the device gives: a photo, or else a full frame of the video. */
  async shoot(video: HTMLVideoElement): Promise<Shot> {
    const takenAt = Date.now();
    try {
      if ('ImageCapture' in globalThis) return { blob: await this.#photo(), bitmap: null, takenAt };
    } catch (error) {
      console.info('No photo from this camera, so a frame of its video:', error);
    }
    return { ...(await frameOf(video)), takenAt };
  }

  /** Lets go of the camera: its light goes out. */
  stop(): void {
    for (const track of this.stream.getTracks()) track.stop();
  }

  async #photo(): Promise<Blob> {
    const capture = new ImageCapture(this.#track);
    const { imageWidth, imageHeight, fillLightMode } = await withinTime(capture.getPhotoCapabilities());
    const wanted: PhotoSettings = {
      ...(imageWidth?.max && imageHeight?.max && { imageWidth: imageWidth.max, imageHeight: imageHeight.max }),
      // A flash is mirrored by wet pads.
      ...(fillLightMode?.includes('off') && { fillLightMode: 'off' }),
    };
    return withinTime(capture.takePhoto(wanted));
  }
}

async function withinTime<T>(promise: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('the camera did not answer')), MAX_PHOTO_MILLIS);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

async function frameOf(video: HTMLVideoElement): Promise<Pick<Shot, 'blob' | 'bitmap'>> {
  const bitmap = await createImageBitmap(video);
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [bitmap.width, bitmap.height];
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.9));
  canvas.width = 0;
  return { blob: blob ?? new Blob(), bitmap };
}
