/**
 * Camera families: spectral sensitivities as sums of two lobes per channel.
 *
 * The first three are fits to phones measured by S. Tominaga, S. Nishi, R. Ohtera (Sensors 21:4985, 2021) and
 * O. Burggraaff et al. (Opt. Express 27:19075, 2019); the other two are invented: one with broad, overlapping
 * filters, one with narrow ones and an early infrared cut. Single phones of a family differ by a few nanometres.
 */
import type { Random } from '../random.ts';
import { gaussian, sigmoid, spectrumOf, type Spectrum } from '../spectra/wavelengths.ts';

type Lobe = readonly [peakNm: number, height: number, belowNm: number, aboveNm: number];

interface Family {
  readonly channels: readonly [Channel, Channel, Channel];
  readonly infraredCutNm: number;
}

interface Channel {
  readonly lobes: readonly Lobe[];
  /** Leakage at all wavelengths. */
  readonly floor: number;
}

const channel = (floor: number, ...lobes: Lobe[]): Channel => ({ floor, lobes });

const FAMILIES = {
  alder: {
    infraredCutNm: 705,
    channels: [
      channel(0.018, [593, 0.823, 9.5, 43.1], [532, 0.057, 22.8, 23.7]),
      channel(0.03, [497, 0.608, 14.6, 29.6], [555, 0.835, 35, 36.6]),
      channel(0.035, [426, 0.242, 10.1, 19], [473, 0.628, 27.7, 36.8]),
    ],
  },
  birch: {
    infraredCutNm: 700,
    channels: [
      channel(0.014, [593, 0.724, 9.3, 39.3], [530, 0.059, 22.1, 24.5]),
      channel(0.018, [505, 0.683, 13.3, 39.8], [566, 0.567, 44.2, 28.1]),
      channel(0.021, [427, 0.175, 12.6, 16.8], [470, 0.615, 27.1, 34.4]),
    ],
  },
  cedar: {
    infraredCutNm: 695,
    channels: [
      channel(0.007, [592, 0.735, 8.7, 41.4], [536, 0.105, 27.9, 48.5]),
      channel(0.017, [499, 0.645, 8.4, 43.1], [568, 0.63, 48.9, 30.1]),
      channel(0.037, [423, 0.308, 8.7, 13.7], [462, 0.691, 21.4, 52.7]),
    ],
  },
  damson: {
    infraredCutNm: 690,
    channels: [
      channel(0.02, [600, 0.8, 16, 40], [520, 0.12, 30, 40]),
      channel(0.02, [535, 1, 38, 44]),
      channel(0.03, [455, 0.8, 26, 32], [520, 0.06, 30, 30]),
    ],
  },
  elm: {
    infraredCutNm: 665,
    channels: [
      channel(0.01, [596, 0.85, 11, 32], [540, 0.05, 18, 18]),
      channel(0.012, [528, 1, 26, 34]),
      channel(0.015, [458, 0.75, 20, 27]),
    ],
  },
} as const satisfies Record<string, Family>;

export type FamilyName = keyof typeof FAMILIES;

export const FAMILY_NAMES = Object.keys(FAMILIES) as FamilyName[];

export type Sensor = readonly [Spectrum, Spectrum, Spectrum];

/** One phone of a family. */
export function sensorOf(name: FamilyName, random: Random): Sensor {
  const family: Family = FAMILIES[name];
  const cutNm = family.infraredCutNm + random.about(0, 4);
  const one = ({ lobes, floor }: Channel): Spectrum => {
    const shiftNm = random.about(0, 1.5);
    const width = random.about(1, 0.02);
    return spectrumOf((nm) => {
      const sum = lobes.reduce((total, [peak, height, below, above]) => {
        const at = peak + shiftNm;
        return total + height * gaussian(nm, at, width * (nm < at ? below : above));
      }, floor);
      return sum * sigmoid(nm, 402, 5) * (1 - sigmoid(nm, cutNm, 8));
    });
  };
  return [one(family.channels[0]), one(family.channels[1]), one(family.channels[2])];
}
