/** The camera in the read page's desk, beside the place for files, or the camera app where there is no live camera. */
import { cameraHindrance } from '../../browser/camera.ts';
import { dipClock } from '../../browser/dip-clock.ts';
import type { VisionClient } from '../../browser/worker-client.ts';
import type { CameraFailure } from '../../core/capture/failure.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { failureText } from '../../words/camera.ts';
import { CameraView } from '../camera/camera-view.ts';
import { need } from '../dom.ts';
import type { IncomingPhoto, Shown } from './incoming-photo.ts';

interface Uses {
  readonly scale: () => StripScale;
  readonly onPhoto: (photo: IncomingPhoto) => void;
}

export class CameraPlace {
  readonly #desk: HTMLElement;
  readonly #client: VisionClient;
  readonly #uses: Uses;

  constructor(desk: HTMLElement, client: VisionClient, uses: Uses) {
    this.#desk = desk;
    this.#client = client;
    this.#uses = uses;
    for (const button of [this.#button, this.#inTimer]) button.addEventListener('click', () => void this.open());
    const hindrance = cameraHindrance();
    if (hindrance) this.#offerCameraApp(hindrance);
  }

  /** @param joins the sheet whose strip is photographed once more */
  async open(joins?: Shown): Promise<void> {
    const [button, why] = [this.#button, need(this.#desk, '.camera-why')];
    button.disabled = this.#inTimer.disabled = true;
    why.textContent = 'Asking for the camera.';
    const failure = await this.#view.open({
      scale: this.#uses.scale,
      client: this.#client,
      onShot: ({ blob, bitmap, takenAt }) => {
        this.#showDrop(true);
        const seconds = dipClock.secondsSinceDip(takenAt);
        const photo = { blob, sinceDipSeconds: seconds === null ? null : Math.max(0, seconds), truth: {} };
        this.#uses.onPhoto({ ...photo, fromCamera: true, joins, ...(bitmap && { bitmap }) });
      },
      onEnded: (text) => {
        this.#showDrop(true);
        why.textContent = text;
        (this.#inTimer.checkVisibility() ? this.#inTimer : button).focus();
      },
    });
    button.disabled = this.#inTimer.disabled = false;
    if (!failure) return this.#showDrop(this.#view.hidden === true);
    this.#offerCameraApp(failure);
    need<HTMLElement>(this.#desk, '#photo-app').focus();
  }

  /** The place for files comes back. */
  close(): void {
    this.#view.stop();
    this.#showDrop(true);
  }

  get #view(): CameraView {
    return need(this.#desk, 'camera-view');
  }

  get #button(): HTMLButtonElement {
    return need(this.#desk, '.drop [data-camera]');
  }

  /** While a strip waits for its photo, the same button stands beside the time that is left. */
  get #inTimer(): HTMLButtonElement {
    return need(this.#desk, 'dip-timer [data-camera]');
  }

  #showDrop(on: boolean): void {
    need<HTMLElement>(this.#desk, '.drop').hidden = !on;
    need<HTMLElement>(this.#desk, 'dip-timer').classList.toggle('at-camera', !on);
    if (!on) need(this.#desk, '.camera-why').textContent = '';
  }

  /** No live camera: the system's own camera app, or a file, does as well. */
  #offerCameraApp(failure: CameraFailure): void {
    need(this.#desk, '.camera-why').textContent = failureText(failure);
    need<HTMLElement>(this.#desk, '.camera-app').hidden = false;
    this.#button.hidden = failure === 'insecure' || failure === 'unsupported';
    this.#button.classList.remove('primary');
    this.#inTimer.hidden = true;
    need<HTMLElement>(this.#desk, 'dip-timer [data-app]').hidden = false;
  }
}
