/**
 * A lamp and a phone, simple enough to play with: what they make of the card and of a pad. Only the instrument on
 * light uses it; it stands for no device.
 */
import { NEUTRALS, PAPER_PATCHES, SLOT, type Rect } from '../../core/card/geometry.ts';
import type { CardSamples, PatchSample } from '../../core/samples.ts';
import type { Triple } from '../../core/colour/lab.ts';

export interface Lamp {
  /** Above which spot of the card, mm from its top left corner. */
  readonly xMm: number;
  readonly yMm: number;
  /** Colour temperature of a glowing body, kelvin. */
  readonly kelvin: number;
}

/** Wavelengths that the phone's red, green and blue see, nm; one each. */
const CHANNELS_NM: Triple = [610, 545, 465];
const LAMP_HEIGHT_MM = 220;
/** Second radiation constant hc/k, nm K (CODATA 2018). */
const HC_OVER_K = 1.438776877e7;
/** The phone takes half of a cast away by itself, and steepens the tones. */
const AUTO_BALANCE = 0.5;
const CONTRAST = 1.15;
const EXPOSURE = 0.95;
/** Reflectance of paper and of solid black, and dot gain at half coverage, of a plain printer. */
const PAPER = 0.84;
const BLACK = 0.05;
const DOT_GAIN = 0.2;

/** A surface's linear reflectance at a place, as the phone encodes it, 0 to 1. */
export function photograph(reflectance: Triple, xMm: number, yMm: number, lamp: Lamp): Triple {
  const light = EXPOSURE * lightFrom(lamp, xMm, yMm);
  const cast = castOf(lamp.kelvin);
  return [0, 1, 2].map((i) => encode(reflectance[i]! * light * cast[i]!)) as unknown as Triple;
}

export function photographCard(lamp: Lamp): CardSamples {
  const sample = (rect: Rect, ink: number): PatchSample => {
    const xMm = rect.xMm + rect.widthMm / 2;
    const yMm = rect.yMm + rect.heightMm / 2;
    const grey = greyOf(ink);
    const rgb = photograph([grey, grey, grey], xMm, yMm, lamp);
    const clipped = rgb.some((channel) => channel >= 1) ? 1 : 0;
    return { id: rect.id, xMm, yMm, rgb, scatter: [0.005, 0.005, 0.005], count: 1000, clipped, rejected: 0 };
  };
  return {
    version: 1,
    printMark: null,
    variant: 'black',
    neutrals: NEUTRALS.map((neutral) => sample(neutral, neutral.ink)),
    anchors: [],
    paper: PAPER_PATCHES.map((patch) => sample(patch, 0)),
    slot: [sample(SLOT, SLOT.ink)],
  };
}

/** A bare lamp over a plane, 1 right below it. */
function lightFrom({ xMm: lampX, yMm: lampY }: Lamp, xMm: number, yMm: number): number {
  const away = ((xMm - lampX) ** 2 + (yMm - lampY) ** 2) / LAMP_HEIGHT_MM ** 2;
  return (1 + away) ** -2;
}

/** What is left of the lamp's colour after the phone's own balance; the strongest channel is 1. */
function castOf(kelvin: number): Triple {
  const planck = (nm: number, k: number) => 1 / (nm ** 5 * Math.expm1(HC_OVER_K / (nm * k)));
  const raw = CHANNELS_NM.map((nm) => (planck(nm, kelvin) / planck(nm, 6500)) ** (1 - AUTO_BALANCE));
  const most = Math.max(...raw);
  return raw.map((x) => x / most) as unknown as Triple;
}

function encode(linear: number): number {
  const held = Math.min(1, Math.max(0, linear)) ** CONTRAST;
  return held <= 0.0031308 ? 12.92 * held : 1.055 * held ** (1 / 2.4) - 0.055;
}

function greyOf(ink: number): number {
  const area = Math.min(1, ink + 4 * DOT_GAIN * ink * (1 - ink));
  return PAPER * (1 - area) + BLACK * area;
}
