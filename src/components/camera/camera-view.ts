/** The live camera: shows where the card is, says what is in the way, and takes the photo at the right moment. */
import type { CameraFailure } from '../../core/capture/failure.ts';
import { type Camera, openCamera, type Shot } from '../../browser/camera.ts';
import { dipClock } from '../../browser/dip-clock.ts';
import { watchFrames } from '../../browser/preview-frames.ts';
import { give } from '../../browser/signal.ts';
import type { VisionClient } from '../../browser/worker-client.ts';
import type { CloseLook, Glimpse } from '../../core/capture/glimpse.ts';
import { type HintCode, hintFor, isSteady, restMillis, type Sighting, withSighting } from '../../core/capture/hints.ts';
import { momentAt } from '../../core/dip/phases.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Picture } from '../../vision/messages.ts';
import { need } from '../dom.ts';
import { toElement } from '../svg.ts';
import { TICK_MILLIS, TimerFace } from '../timer/face.ts';
import { overlay } from './overlay.ts';
import { Speaker } from './speaker.ts';
import { ENDED, GOOD_DIP, GOOD_PAST, GOOD_WAIT, hintText, STARTING, TAKING } from '../../words/camera.ts';
import { isAbort } from '../../browser/abort.ts';

/** A close look is taken this often, and holds for so long. */
const CLOSE_EVERY_MILLIS = 400;
/** A slow machine must not spend all its time on close looks: plain ones get this many times as long. */
const CLOSE_REST = 3;
const CLOSE_HOLDS_MILLIS = 3000;
/** The engine fails on frame after frame: the shutter still works, the hints end. */
const MAX_FAILURES = 3;

export interface CameraUse {
  readonly scale: () => StripScale;
  readonly client: VisionClient;
  readonly onShot: (shot: Shot) => void;
  /** The camera is off without a photo. */
  readonly onEnded: (why: string) => void;
}

export class CameraView extends HTMLElement {
  #use!: CameraUse;
  #camera: Camera | null = null;
  #speaker!: Speaker;
  #stopFrames: () => void = () => undefined;
  #ticking: ReturnType<typeof setInterval> | undefined;
  #sightings: Sighting[] = [];
  #close: { readonly look: CloseLook; readonly millis: number } | null = null;
  #failures = 0;
  #nextCloseMillis = 0;
  #isTaking = false;
  readonly #face = new TimerFace();

  connectedCallback(): void {
    this.#speaker = new Speaker(need(this, '.camera-hint'), need(this, '[role=status]'));
    need(this, '.camera-frame').after(this.#face.element);
    need(this, '[data-shoot]').addEventListener('click', () => void this.#shoot());
    need(this, '[data-close]').addEventListener('click', () => this.#end(ENDED.closed));
    const torch = need<HTMLInputElement>(this, '.camera-torch input');
    torch.addEventListener('change', () => {
      this.#camera?.setTorch(torch.checked).catch(() => (torch.checked = false));
    });
    document.addEventListener('visibilitychange', this.#onVisibility);
    window.addEventListener('pagehide', this.#onPageHide);
  }

  disconnectedCallback(): void {
    this.stop();
    document.removeEventListener('visibilitychange', this.#onVisibility);
    window.removeEventListener('pagehide', this.#onPageHide);
  }

  /** @returns why not; null when it is open */
  async open(use: CameraUse): Promise<CameraFailure | null> {
    this.stop();
    const opened = await openCamera();
    if (!opened.ok) return opened.failure;
    this.#use = use;
    this.#camera = opened.camera;
    // Asked for while the page went away.
    if (document.visibilityState === 'hidden') this.#end(ENDED.hidden);
    else await this.#start(opened.camera);
    return null;
  }

  stop(): void {
    this.#stopFrames();
    clearInterval(this.#ticking);
    this.#camera?.stop();
    this.#camera = null;
    this.#video.srcObject = null;
    this.hidden = true;
  }

  get #video(): HTMLVideoElement {
    return need(this, 'video');
  }

  async #start(camera: Camera): Promise<void> {
    [this.#sightings, this.#close, this.#failures, this.#isTaking] = [[], null, 0, false];
    camera.onEnded = () => this.#camera === camera && this.#end(ENDED.lost);
    const torch = need<HTMLElement>(this, '.camera-torch');
    torch.hidden = !camera.hasTorch;
    need<HTMLInputElement>(torch, 'input').checked = false;
    need(this, '.camera-overlay').replaceChildren();
    need<HTMLButtonElement>(this, '[data-shoot]').disabled = false;
    this.hidden = false;
    this.#speaker.sayNow(STARTING);
    this.#tick();
    this.#ticking = setInterval(() => this.#tick(), TICK_MILLIS);
    this.#video.srcObject = camera.stream;
    this.#stopFrames = watchFrames(this.#video, (frame) => this.#look(frame));
    // Interrupted when it is closed at once: there is nothing to play then.
    await this.#video.play().catch(() => undefined);
    this.scrollIntoView({ block: 'nearest' });
    need<HTMLElement>(this, '[data-shoot]').focus({ preventScroll: true });
  }

  readonly #onVisibility = (): void => {
    if (document.visibilityState === 'hidden' && this.#camera) this.#end(ENDED.hidden);
  };

  readonly #onPageHide = (): void => this.stop();

  #end(why: string): void {
    this.stop();
    this.#use.onEnded(why);
  }

  #tick(): void {
    const seconds = dipClock.secondsSinceDip();
    this.#face.element.hidden = seconds === null;
    if (seconds !== null) this.#face.show(this.#use.scale(), seconds, dipClock.isRead);
  }

  /** @returns how long frames may pass, ms */
  async #look(frame: Picture): Promise<number> {
    const millis = performance.now();
    if (this.#isTaking || this.#failures >= MAX_FAILURES) frame.close();
    else await this.#lookAt(frame, millis);
    return restMillis(this.#sightings);
  }

  async #lookAt(frame: Picture, millis: number): Promise<void> {
    const isClose = this.#sightings.length > 0 && millis >= this.#nextCloseMillis;
    try {
      const glimpse = await this.#use.client.look(frame, this.#use.scale(), isClose);
      if (!this.#camera || this.#isTaking) return;
      if (isClose) {
        const ended = performance.now();
        this.#nextCloseMillis = Math.max(millis + CLOSE_EVERY_MILLIS, ended + CLOSE_REST * (ended - millis));
      }
      this.#failures = 0;
      this.#judge(glimpse, millis);
    } catch (error) {
      // Ended with the page, or for a reading: not the engine's fault.
      if (isAbort(error)) return;
      console.error(error);
      this.#failures++;
    }
  }

  #judge(glimpse: Glimpse, millis: number): void {
    this.#sightings = withSighting(this.#sightings, millis, glimpse.card);
    if (glimpse.close) this.#close = { look: glimpse.close, millis };
    else if (!glimpse.card || (this.#close && millis - this.#close.millis > CLOSE_HOLDS_MILLIS)) this.#close = null;
    const close = this.#close?.look ?? null;
    const hint = hintFor(glimpse, close, isSteady(this.#sightings));
    need(this, '.camera-overlay').replaceChildren(toElement(overlay(glimpse, glimpse.close, hint)));
    this.dataset['hint'] = hint ?? 'good';
    this.dispatchEvent(new Event('looked'));
    if (hint) this.#speaker.say(hintText(hint, close?.glarePads ?? []), performance.now());
    else if (close) this.#whenGood();
  }

  #whenGood(): void {
    const seconds = dipClock.secondsSinceDip();
    const phase = seconds === null ? 'read' : momentAt(this.#use.scale(), seconds).phase;
    if (phase === 'read') return void this.#shoot();
    const words = phase === 'past' ? GOOD_PAST : phase === 'dip' ? GOOD_DIP : GOOD_WAIT;
    this.#speaker.say(words, performance.now());
  }

  async #shoot(): Promise<void> {
    const camera = this.#camera;
    if (!camera || this.#isTaking) return;
    this.#isTaking = true;
    need<HTMLButtonElement>(this, '[data-shoot]').disabled = true;
    this.#speaker.sayNow(TAKING);
    give('step');
    try {
      const shot = await camera.shoot(this.#video);
      if (this.#camera !== camera) return shot.bitmap?.close();
      this.stop();
      this.#use.onShot(shot);
    } catch (error) {
      console.error(error);
      if (this.#camera === camera) this.#end(ENDED.lost);
    }
  }

  /** For tests and benches: what is in the way now. */
  get hint(): HintCode | 'good' | null {
    return (this.dataset['hint'] as HintCode | 'good' | undefined) ?? null;
  }
}

customElements.define('camera-view', CameraView);
