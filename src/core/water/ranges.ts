/**
 * What codes, standards and handbooks give as the range of a reading in a pool: whose range, which edition, and whether
 * it was read. Public-pool rules serve as a guide for a home pool; local codes come first.
 */
import { COMMON_PRACTICE, fromMemory, read, readElsewhere, type Provenance } from '../provenance.ts';

export type RangeParameter =
  | 'free-chlorine'
  | 'combined-chlorine'
  | 'ph'
  | 'total-alkalinity'
  | 'calcium-hardness'
  | 'cyanuric-acid'
  | 'salt'
  | 'temperature'
  | 'saturation-index'
  | 'boron';

export interface SourcedRange extends Provenance {
  readonly parameter: RangeParameter;
  /** For which water, where the source says. */
  readonly water: string;
  /** Whose range. */
  readonly whose: string;
  readonly edition: string;
  /** Lowest and highest allowed, and the span called ideal; null where the source gives none. */
  readonly min: number | null;
  readonly idealLow: number | null;
  readonly idealHigh: number | null;
  readonly max: number | null;
}

type Numbers = readonly [min: number | null, idealLow: number | null, idealHigh: number | null, max: number | null];

const STANDARD = 'ANSI/APSP/ICC-11, American National Standard for Water Quality in Public Pools and Spas';
const MAHC = 'CDC Model Aquatic Health Code';
const CDC = 'CDC healthy-swimming advice';
const CDC_PUBLIC = 'CDC Operating and Managing Public Pools, Hot Tubs and Splash Pads';
const MONTANA = 'Administrative Rules of Montana 37.115.1308';
const MILITARY = 'MIL-HDBK-1027/4A section 5.2.7';
const ANNE_ARUNDEL = 'Anne Arundel County MD code';
const ALBUQUERQUE = 'City of Albuquerque code';
const DIN = 'DIN 19643-1';
const AUSTRIA = 'Baederhygieneverordnung (Austria)';
const SWISS = 'SIA 385/9 (Switzerland)';
const WHO = 'WHO Guidelines for safe recreational water environments vol 2';

function range(
  parameter: RangeParameter,
  water: string,
  whose: string,
  edition: string,
  status: (source: string) => Provenance,
  [min, idealLow, idealHigh, max]: Numbers,
): SourcedRange {
  return { parameter, water, whose, edition, min, idealLow, idealHigh, max, ...status(whose) };
}

const common = () => COMMON_PRACTICE;

export const RANGES: readonly SourcedRange[] = [
  range('free-chlorine', 'without stabilizer', MAHC, '2018', readElsewhere, [1, null, null, 10]),
  range('free-chlorine', 'with stabilizer', MAHC, '2018', readElsewhere, [2, null, null, 10]),
  range('free-chlorine', 'any', CDC, '2017-2019', readElsewhere, [1, null, null, null]),
  range('free-chlorine', 'public', MONTANA, 'obsolete version', read, [2, 3, 5, 8]),
  range('free-chlorine', 'public', MILITARY, 'US DoD', read, [0.6, 1, 3, 5]),
  range('free-chlorine', 'without stabilizer', ALBUQUERQUE, 'current online', read, [0.4, null, null, 1.5]),
  range('free-chlorine', 'with stabilizer', ALBUQUERQUE, 'current online', read, [1, null, null, 4]),
  range('free-chlorine', 'public', ANNE_ARUNDEL, 'current online', read, [1.5, null, null, 5]),
  range('free-chlorine', 'without stabilizer', DIN, 'June 2023', readElsewhere, [0.3, null, null, 0.6]),
  range('free-chlorine', 'any', SWISS, 'undated', readElsewhere, [0.2, null, null, 0.8]),
  range('free-chlorine', 'any', STANDARD, '2009/2019', fromMemory, [1, 2, 4, 10]),
  range('free-chlorine', 'any', WHO, '2006', fromMemory, [null, 1, null, 3]),
  range('combined-chlorine', 'any', MONTANA, 'obsolete version', read, [null, null, 0, 0.5]),
  range('combined-chlorine', 'any', ANNE_ARUNDEL, 'current online', read, [null, null, null, 0.2]),
  range('combined-chlorine', 'any', DIN, 'June 2023', readElsewhere, [null, null, null, 0.2]),
  range('combined-chlorine', 'any', AUSTRIA, 'undated', readElsewhere, [null, null, null, 0.3]),
  range('combined-chlorine', 'any', MAHC, '2014-2023', fromMemory, [null, null, null, 0.4]),
  range('combined-chlorine', 'any', STANDARD, '2009/2019', fromMemory, [null, null, null, 0.2]),
  range('ph', 'any', MAHC, '2018', readElsewhere, [7.2, null, null, 7.8]),
  range('ph', 'any', MAHC, '2023', readElsewhere, [7, null, null, null]),
  range('ph', 'public', CDC_PUBLIC, '', read, [7, null, null, 7.8]),
  range('ph', 'any', CDC, '2017-2019', readElsewhere, [7.2, null, null, 7.8]),
  range('ph', 'any', MONTANA, 'obsolete version', read, [7.2, 7.4, 7.6, 7.8]),
  range('ph', 'any', MILITARY, 'US DoD', read, [7.4, null, null, 7.6]),
  range('ph', 'any', ANNE_ARUNDEL, 'current online', read, [7.2, null, null, 7.8]),
  range('ph', 'any', AUSTRIA, 'undated', readElsewhere, [6.5, null, null, 7.8]),
  range('ph', 'any', SWISS, 'undated', readElsewhere, [6.8, null, null, 7.6]),
  range('ph', 'any', WHO, '2006', fromMemory, [7.2, null, null, 7.8]),
  range('total-alkalinity', 'any', STANDARD, '2019, page 34', read, [60, null, null, 180]),
  range('total-alkalinity', 'any', STANDARD, '2019', fromMemory, [null, 80, 120, null]),
  range('total-alkalinity', 'hypochlorites', MONTANA, 'obsolete version', read, [60, 80, 100, 220]),
  range('total-alkalinity', 'trichlor, dichlor, gas', MONTANA, 'obsolete version', read, [60, 100, 120, 220]),
  range('total-alkalinity', 'any', MILITARY, 'US DoD', read, [80, null, null, 150]),
  range('total-alkalinity', 'any', DIN, 'June 2023', readElsewhere, [35, null, null, null]),
  range('total-alkalinity', 'any', MAHC, '2014-2023', fromMemory, [60, null, null, 180]),
  range('calcium-hardness', 'pool', STANDARD, '2019, page 34', read, [150, 200, 400, 1000]),
  range('calcium-hardness', 'pool', MONTANA, 'obsolete version', read, [150, 200, 400, 1000]),
  range('cyanuric-acid', 'any', MAHC, '2018', readElsewhere, [null, null, null, 90]),
  range('cyanuric-acid', 'outdoor', MONTANA, 'obsolete version', read, [0, 10, 50, 100]),
  range('cyanuric-acid', 'any', ANNE_ARUNDEL, 'current online', read, [30, null, null, 100]),
  range('cyanuric-acid', 'any', WHO, '2006', fromMemory, [null, null, null, 100]),
  range('cyanuric-acid', 'any', STANDARD, '2009/2019', fromMemory, [null, 30, 50, 100]),
  // What the maker of the chlorinator says goes first.
  range('salt', 'electrolytic chlorine', 'the trade', '', common, [2500, 2700, 3400, 4500]),
  range('temperature', 'pool', MONTANA, 'obsolete version', read, [null, null, null, 37.8]),
  range('temperature', 'hot tub', MONTANA, 'obsolete version', read, [null, null, null, 40]),
  range('temperature', 'swimming', 'the trade', '', common, [null, 25, 28, null]),
  range('saturation-index', 'any', 'pool-operator certification course page', '', read, [-0.3, 0, 0, 0.3]),
  range('saturation-index', 'any', 'public copies, Langelier table', '', read, [-0.5, null, null, 0.5]),
  range('saturation-index', 'any', STANDARD, '2009/2019', fromMemory, [-0.3, 0, 0, 0.5]),
  range('boron', 'with borate', 'the trade', '', common, [null, 30, 50, null]),
];

export function rangesOf(parameter: RangeParameter): SourcedRange[] {
  return RANGES.filter((row) => row.parameter === parameter);
}
