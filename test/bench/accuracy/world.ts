/**
 * Owners, phones, lights and photos without pictures: only the colours that a finder would hand on. The spectra,
 * printers, sensors and dyes are the studio's; geometry is perfect. Thousands of readings take a minute.
 */
import { ANCHORS, NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../../../src/core/card/geometry.ts';
import { printMarkAt } from '../../../src/core/card/print-mark.ts';
import type { CardSamples, PatchSample, StripSamples } from '../../../src/core/samples.ts';
import { balanced, profileFor, temperatureOf, times, vivid, whiteResponse } from '../../studio/camera/colour.ts';
import { type FamilyName, type Sensor, sensorOf } from '../../studio/camera/sensors.ts';
import { TONE_NAMES, toneCurve, type ToneName } from '../../studio/camera/tone.ts';
import { both, phoneTurning, photoTurning, turned, type Turning } from '../../studio/camera/turning.ts';
import type { Random } from '../../studio/random.ts';
import { D50, daylight } from '../../studio/spectra/daylight.ts';
import { compositeGrey, type GreyCast } from '../../studio/spectra/composite.ts';
import { type Paper, paperUnder, printed, type Printer, separate, spotInk } from '../../studio/spectra/inks.ts';
import { evenly, ledWhite, mix, planck, triBand, underLeaves } from '../../studio/spectra/lights.ts';
import { labOf } from '../../studio/spectra/observer.ts';
import type { Spectrum, Triple } from '../../studio/spectra/wavelengths.ts';
import { PLASTIC } from '../../studio/strips/pads.ts';
import { developed, type StudioStrip } from '../../studio/strips/strips.ts';
import { type Cause, EVERYTHING } from './causes.ts';

export interface Owner {
  readonly strip: StudioStrip;
  readonly paper: Paper;
  readonly printer: Printer;
  /** How greys that the printer mixes from colours are off; null: greys of black ink alone. */
  readonly cast: GreyCast | null;
  readonly variant: 'colour' | 'black';
  /** The print's own mark; null on a card without one. */
  readonly printMark: number | null;
}

export interface Phone {
  readonly sensor: Sensor;
  readonly tone: ToneName;
  readonly saturation: number;
  /** Its own rendering of hues, the same in every photo; null: none. */
  readonly turning: Turning | null;
}

/** The printer and paper that the average home has. */
const AVERAGE: Pick<Owner, 'paper' | 'printer'> = {
  paper: { level: 0.865, yellowness: 0.015, brightener: 0.065 },
  printer: { dotGain: 0.08, n: 1.55, blackDensity: 1.325, blackWarmth: 0, strength: [1, 1, 1], greys: 'black' },
};

/** Home printer and paper. */
export function ownerOf(strip: StudioStrip, random: Random, causes = EVERYTHING): Owner {
  const printMark = printMarkAt(random.fork('mark').next());
  const printed = { strip, cast: null, variant: 'colour', printMark } as const;
  if (!causes.has('printer')) return { ...printed, ...AVERAGE };
  return {
    ...printed,
    paper: {
      level: random.between(0.83, 0.9),
      yellowness: random.between(0, 0.03),
      brightener: random.between(0, 0.13),
    },
    printer: {
      dotGain: random.between(0.03, 0.13),
      n: random.between(1.35, 1.75),
      blackDensity: random.between(1.15, 1.5),
      blackWarmth: random.about(0, 0.02),
      strength: [random.about(1, 0.06), random.about(1, 0.06), random.about(1, 0.06)],
      greys: 'black',
    },
  };
}

export function phoneOf(families: readonly FamilyName[], random: Random, causes = EVERYTHING): Phone {
  const sensor = sensorOf(random.pick(families), random.fork('unit'));
  const [tone, saturation] = [random.pick(TONE_NAMES), random.between(0.98, 1.16)];
  const turning = causes.has('turning') ? phoneTurning(random.fork('turning')) : null;
  return causes.has('tone') ? { sensor, tone, saturation, turning } : { sensor, tone: 'plain', saturation: 1, turning };
}

const LAMPS = new WeakSet<Spectrum>();

/** Remembers that a light is a lamp's, as its owner would. */
export function lamp(light: Spectrum): Spectrum {
  LAMPS.add(light);
  return light;
}

/** What the owner calls a light. */
export function wordFor(light: Spectrum): string {
  return LAMPS.has(light) ? 'a lamp' : 'daylight';
}

/** Mostly open shade and overcast sky, as the instructions ask; now and then a lamp. */
export function everydayLight(random: Random): Spectrum {
  const share = random.next();
  if (share < 0.55) return daylight(random.between(5200, 9500));
  if (share < 0.75) return underLeaves(random.between(6500, 9500), random.between(0.08, 0.35));
  if (share < 0.9) return lamp(ledWhite('neutral', random.about(0, 2)));
  if (share < 0.95) return lamp(ledWhite('warm', random.about(0, 2)));
  return lamp(triBand(random.pick(['warm', 'cool'] as const)));
}

/** Lights that nothing was set on: low sun, cool lamps, a window with a lamp on, an incandescent lamp. */
export function unfamiliarLight(random: Random): Spectrum {
  const share = random.next();
  if (share < 0.4) return daylight(random.between(4100, 5100));
  if (share < 0.65) return lamp(ledWhite('cool', random.about(0, 2)));
  if (share < 0.9) return mix(daylight(random.between(5500, 9000)), ledWhite('warm'), random.between(0.15, 0.5));
  return lamp(planck(random.between(2600, 2900)));
}

/** Stock of a chart whose spot inks match the wet pads to the eye under D50, and only to the eye. */
const PRESS_PAPER: Paper = { level: 0.88, yellowness: 0.01, brightener: 0.05 };

export interface Shot {
  readonly card: CardSamples;
  /** The chart's blocks, pad by pad, lying above the card. */
  chart(): PatchSample[][];
  /** The plastic of a strip in the slot before it was dipped. */
  dryBase(): PatchSample[];
  /** The wet strip in the slot, in water of the given values, in the order of its pads. */
  strip(values: readonly number[]): StripSamples;
}

export function takeShot(
  owner: Owner,
  phone: Phone,
  lightSpectrum: Spectrum,
  random: Random,
  causes: ReadonlySet<Cause> = EVERYTHING,
): Shot {
  const light = evenly(lightSpectrum);
  const capture = captureWith(phone, light, random, causes);
  const sample = (id: string, spectrum: Spectrum, [xMm, yMm]: readonly [number, number], veil = 0): PatchSample => {
    const rgb = capture(spectrum, xMm, yMm, veil);
    const clipped = Math.max(...rgb) > 0.996 ? 1 : 0;
    return { id, xMm, yMm, rgb, scatter: [0.006, 0.006, 0.006], count: 2000, clipped, rejected: 0 };
  };
  const paper = paperUnder(owner.paper, light);
  const grey = (ink: number) =>
    owner.cast ? compositeGrey(ink, owner.cast, owner.printer, paper) : printed([0, 0, 0, ink], owner.printer, paper);
  const slotPlaces = [25, 50, 74, 98, 123].flatMap((x) => [45, 60].map((y) => [x, y] as const));
  return {
    card: {
      version: owner.printMark === null ? 1 : 2,
      printMark: owner.printMark,
      variant: owner.variant,
      neutrals: NEUTRALS.map((patch) => sample(patch.id, grey(patch.ink), middleOf(patch))),
      anchors: (owner.variant === 'colour' ? ANCHORS : []).map((patch) =>
        sample(patch.id, printed(separate([...patch.srgb]), owner.printer, paper), middleOf(patch)),
      ),
      paper: PAPER_PATCHES.map((patch) => sample(patch.id, paper, middleOf(patch))),
      slot: slotPlaces.map((place, i) => sample(`slot${i}`, grey(SLOT.ink), place)),
    },
    chart: () => {
      const stock = paperUnder(PRESS_PAPER, light);
      const ink = (pad: Spectrum) => (causes.has('inks') ? spotInk(labOf(pad, D50), stock) : pad);
      return owner.strip.pads.map((pad, k) => {
        const apartMm = Math.min(18, 108 / (pad.values.length - 1));
        const placeOf = (i: number) => [20 + apartMm * i, -12 - 12 * k] as const;
        return pad.values.map((value, i) => sample(`c${k}-${i}`, ink(developed(pad, value)), placeOf(i)));
      });
    },
    dryBase: () =>
      [9, 18, 27].map((mm, i) => sample(`base${i}`, PLASTIC, [74 - owner.strip.lengthMm / 2 + mm, 52.5], 0)),
    strip: (values) => wetStrip(owner.strip, values, sample, random, causes),
  };
}

function wetStrip(
  strip: StudioStrip,
  values: readonly number[],
  sample: (id: string, spectrum: Spectrum, place: readonly [number, number], veil: number) => PatchSample,
  random: Random,
  causes: ReadonlySet<Cause>,
): StripSamples {
  const fromMm = 74 - strip.lengthMm / 2;
  const film = random.between(0.002, 0.018);
  const veil = causes.has('film') ? film : 0;
  const lot = random.about(1, 0.015);
  const pads = strip.pads.map((pad, i) => {
    const made = lot * random.about(1, 0.02);
    const dyed = developed(pad, values[i]!, causes.has('dye') ? made : 1);
    return {
      ...sample(pad.parameter, dyed, [fromMm + pad.centreMm, 52.5], veil),
      outline: [],
      brightened: 0,
      beside: [],
    };
  });
  const base = [9, 18, 27].map((mm, i) =>
    sample(`base${i}`, PLASTIC, [fromMm + mm, 52.5], veil * random.between(0.5, 1.3)),
  );
  return { pads, base, reversed: false };
}

/** The phone's colour for a spectrum at a place: light falling off, balance out, stray light, tone curve, noise. */
export function captureWith(phone: Phone, light: Spectrum, random: Random, causes: ReadonlySet<Cause>) {
  const { sensor } = phone;
  const believedK = 1e6 / (1e6 / temperatureOf(light) + random.about(0, 8));
  const matrix = vivid(profileFor(sensor).matrixAt(believedK), phone.saturation);
  const white = whiteResponse(light, sensor);
  const tone = toneCurve(phone.tone);
  const [warmth, tint] = [random.about(0, 0.045), random.about(0, 0.013)];
  const balance = causes.has('balance') ? [1 + warmth + tint, 1, 1 - 1.1 * warmth + tint] : [1, 1, 1];
  const exposure = random.between(0.55, 0.85) / 0.87;
  const stray = causes.has('stray') ? random.between(0.001, 0.01) : 0;
  const [sx, sy, sxx, cast] = [
    random.about(0, 0.06),
    random.about(0, 0.06),
    random.about(0, 0.015),
    random.about(0, 0.008),
  ].map((value) => (causes.has('shading') ? value : 0)) as [number, number, number, number];
  const noise = causes.has('noise') ? 0.0008 : 0;
  const turning = phone.turning && both(phone.turning, photoTurning(random.fork('turning')));
  return (spectrum: Spectrum, xMm: number, yMm: number, veil: number): Triple => {
    const [x, y] = [xMm / 74 - 1, yMm / 52.5 - 1];
    const fall = Math.exp(sx * x + sy * y + sxx * x * x);
    const casts = [1 + cast * x, 1, 1 - cast * x];
    const seen = balanced(spectrum, light, sensor, white).map(
      (value, c) => (value * (1 - veil) + veil) * fall * casts[c]! * balance[c]! * exposure + stray,
    );
    const rendered = times(matrix, seen as unknown as Triple);
    const encoded = (turning ? turned(rendered, turning) : rendered).map(
      (value) => tone(Math.min(1, Math.max(0, value))) + noise * random.normal(),
    );
    return encoded as unknown as Triple;
  };
}

function middleOf({ xMm, yMm, widthMm, heightMm }: Rect): readonly [number, number] {
  return [xMm + widthMm / 2, yMm + heightMm / 2];
}
