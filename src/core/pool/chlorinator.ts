/** Salt chlorinators: hours to run against the chlorine the pool uses, with Faraday's law as the ceiling. */

/** C/mol, exact since 2019: CODATA 2018, NIST SP 959. */
export const FARADAY = 96485.33212;
/** g/mol Cl2, IUPAC conventional atomic weights. */
const CL2 = 70.9;

/** mg/L of free chlorine used up in a day. */
export interface ChlorineUse {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly basis: 'measured-overnight' | 'measured-day' | 'learnt' | 'assumed';
}

/** Where the pool lies decides what is assumed when nothing was measured. */
export type Exposure = 'sun-stabilised' | 'sun-unstabilised' | 'covered';

/** Common practice, no source: only until the owner has measured the pool's own use. */
const ASSUMED_USE: Record<Exposure, { value: number; low: number; high: number }> = {
  'sun-stabilised': { value: 2.5, low: 1.5, high: 4 },
  'sun-unstabilised': { value: 6, low: 3, high: 10 },
  covered: { value: 1, low: 0.5, high: 2 },
};

/** Covered by night or most of the day, an open pool spends less. Common practice, no source. */
export type Cover = 'none' | 'nights' | 'mostly';
const COVER_SHARE: Record<Cover, number> = { none: 1, nights: 0.9, mostly: 0.5 };

/** Warm water uses about twice as much for 10 °C more, as growth does. Common practice, no source; within bounds. */
const USUAL_C = 26;
const PER_TEN_DEGREES = 2;
const SEASON_BOUNDS = { min: 0.3, max: 1.7 } as const;

/** @param temperatureC of the water, where measured */
export function assumedUse(exposure: Exposure, temperatureC = USUAL_C, cover: Cover = 'none'): ChlorineUse {
  const { value, low, high } = ASSUMED_USE[exposure];
  const season = seasonShare(temperatureC);
  const share = season * (exposure === 'covered' ? 1 : COVER_SHARE[cover]);
  return { value: share * value, low: share * low, high: share * high, basis: 'assumed' };
}

/** How the use changes with the water's warmth, against water of a usual 26 °C. */
function seasonShare(temperatureC: number): number {
  const warmth = PER_TEN_DEGREES ** ((temperatureC - USUAL_C) / 10);
  return Math.min(SEASON_BOUNDS.max, Math.max(SEASON_BOUNDS.min, warmth));
}

interface Span {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface MeasuredLoss {
  /** Free chlorine with nothing added in between: dusk and dawn, or dawn and dawn. */
  readonly before: Span;
  readonly after: Span;
  readonly hours: number;
  readonly night: boolean;
}

/**
 * The use in 24 h from two readings. A night's loss leaves out the sun's share, so it is a floor for the day.
 * @returns null when the readings say that chlorine rose or no time passed
 */
export function measuredUse({ before, after, hours, night }: MeasuredLoss): ChlorineUse | null {
  if (!(hours > 0) || after.low > before.high) return null;
  const perDay = (loss: number) => (Math.max(0, loss) * 24) / hours;
  return {
    value: perDay(before.value - after.value),
    low: perDay(before.low - after.high),
    high: perDay(before.high - after.low),
    basis: night ? 'measured-overnight' : 'measured-day',
  };
}

/** Most chlorine a cell can make, g/h: every electron making chlorine in every gap between plates. */
export function faradayCeiling(amperes: number, gaps: number): number {
  return (CL2 / (2 * FARADAY)) * 3600 * amperes * gaps;
}

export interface Cell {
  /** Chlorine at 100 %, as the maker states it. */
  readonly gramsPerHour: number;
  /** What the unit is set to, 0 to 1. */
  readonly setting: number;
  /** From the maker's plate, where known: lets the claim be checked. */
  readonly amperes?: number | undefined;
  readonly gaps?: number | undefined;
}

export interface ChlorinatorHours {
  /** Hours a day at the given setting. */
  readonly hours: number;
  readonly lowHours: number;
  readonly highHours: number;
  /** More than a day would be needed: the cell can't keep up. */
  readonly beyondDay: boolean;
  /** The maker's figure is more than Faraday's law allows. */
  readonly aboveCeiling: boolean;
}

/** @param volumeLitres of the pool */
export function chlorinatorHours(volumeLitres: number, use: Span, cell: Cell): ChlorinatorHours {
  const hoursFor = (milligramsPerLitre: number) => hoursToRaise(volumeLitres, milligramsPerLitre, cell);
  const { amperes, gaps } = cell;
  return {
    hours: hoursFor(use.value),
    lowHours: hoursFor(use.low),
    highHours: hoursFor(use.high),
    beyondDay: hoursFor(use.value) > 24,
    aboveCeiling: amperes !== undefined && gaps !== undefined && cell.gramsPerHour > faradayCeiling(amperes, gaps),
  };
}

/** Hours to raise free chlorine by so much, nothing being used up meanwhile. */
export function hoursToRaise(volumeLitres: number, milligramsPerLitre: number, cell: Cell): number {
  return (volumeLitres * milligramsPerLitre) / 1000 / (cell.gramsPerHour * cell.setting);
}

/** Hours of a pump's timer where nobody has told them. Common practice, no source. */
export const USUAL_TIMER_HOURS = 8;
/** Units are set in such steps, per cent. Common practice, no source. */
const SETTING_STEP = 5;

export interface TimerSetting {
  readonly hours: number;
  /** Per cent, rounded to the nearest step; above 100 the cell can't keep up in these hours. */
  readonly percent: number;
  /** Whether the hours are a usual 8, because nobody told them. */
  readonly isUsual: boolean;
}

/**
 * What to set a chlorinator to that runs with the pump: output goes with the setting, so per cent times hours is what
 * counts.
 * @param hours of the pump's timer a day
 */
export function timerSetting(volumeLitres: number, use: Span, cell: Cell, hours?: number): TimerSetting {
  const run = hours ?? USUAL_TIMER_HOURS;
  const share = hoursToRaise(volumeLitres, use.value, { ...cell, setting: 1 }) / run;
  const percent =
    share > 1 ? Math.ceil(100 * share) : Math.max(1, Math.ceil((100 * share) / SETTING_STEP)) * SETTING_STEP;
  return { hours: run, percent, isUsual: hours === undefined };
}

/** mg/L of chlorine that the cell makes in a day of the pump's hours. */
export function madePerDay(volumeLitres: number, cell: Cell, hours: number): number {
  return (1000 * cell.gramsPerHour * cell.setting * hours) / volumeLitres;
}

/** °C of a season's water, for its settings. */
const SEASON_C = [18, 22, 26, 30] as const;

export interface SeasonSetting {
  readonly temperatureC: number;
  readonly percent: number;
}

/**
 * The setting through a season, from what the pool uses now. Common practice, no source: see `seasonShare`.
 * @param temperatureC of the water that the use belongs to; blank: the usual one
 */
export function seasonSettings(
  volumeLitres: number,
  use: Span,
  cell: Cell,
  hours?: number,
  temperatureC = USUAL_C,
): SeasonSetting[] {
  return SEASON_C.map((at) => {
    const share = seasonShare(at) / seasonShare(temperatureC);
    const then = { value: share * use.value, low: share * use.low, high: share * use.high };
    return { temperatureC: at, percent: timerSetting(volumeLitres, then, cell, hours).percent };
  });
}
