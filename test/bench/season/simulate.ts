/**
 * A season of an invented pool, day by day: water that evaporates, rains in, is topped up, splashed and backwashed; an
 * owner who dips, doses and forgets to write things down. A plain mass balance that shares no code with the estimate.
 */
import { randomFrom } from '../../studio/random.ts';
import { STRIP, type StripPad } from './strip.ts';

export interface SeasonSettings {
  readonly seed: number;
  /** Standard deviations of the strip's errors, block steps: from photo to photo, and of the scale. */
  readonly photoSteps: number;
  readonly sharedSteps: number;
  /** Standard deviation that the reader states, block steps. */
  readonly statedSteps: number;
  /** A drop test of everything on the day of the third strip. */
  readonly hasDropTest: boolean;
  /** Chance that an addition isn't written down. */
  readonly forgets: number;
  /** Large changes in a season that nobody writes down, each one to two and a half blocks of one quantity. */
  readonly upsets: number;
  /** Pure salt in the middle of the season, and readings by a meter before and a day after it. */
  readonly saltTest?: SaltTest;
  /** Mean rain of a month, mm; 53 where left out. */
  readonly monthlyRain?: number;
}

export interface SaltTest {
  readonly kilograms: number;
  /** So many on either side. */
  readonly readings: number;
  /** What the meter always gets wrong, one standard deviation as a share. */
  readonly gain: number;
}

export type Quantity = StripPad['quantity'];

export interface StripReading {
  readonly quantity: Quantity;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly open: 'above' | 'below' | null;
  readonly truth: number;
}

export interface SeasonDay {
  readonly day: number;
  readonly strip: readonly StripReading[] | null;
  readonly dropTest: readonly { readonly quantity: Quantity; readonly value: number; readonly deviation: number }[];
  /** Salt by a meter, mg/L; and whether the salt of this day is that of the test. */
  readonly meter: readonly { readonly value: number; readonly deviation: number; readonly sharedVariance: number }[];
  readonly isPure: boolean;
  /** As the owner writes it down: grams on the label, litres by the gauge, millimetres by the bucket. */
  readonly logged: readonly (
    | { readonly what: 'acid' | 'bicarbonate' | 'calcium' | 'stabilizer' | 'salt'; readonly grams: number }
    | { readonly what: 'water'; readonly litres: number }
    | { readonly what: 'rain'; readonly mm: number }
  )[];
  /** Changes that were not written down. */
  readonly unexplained: readonly { readonly quantity: Quantity; readonly steps: number }[];
  readonly truth: Readonly<Record<Quantity, number>>;
}

export interface Season {
  readonly statedLitres: number;
  readonly trueLitres: number;
  readonly days: readonly SeasonDay[];
}

const SALT_TEST_DAY = 70;
/** A meter's scatter from reading to reading, one standard deviation as a share. */
const METER_REPEATS = 0.0095;
const AREA_M2 = Math.PI * 2.75 ** 2;
const STATED_LITRES = AREA_M2 * 1.2 * 1000;
const FILL: Record<Quantity, number> = { 'total-alkalinity': 150, 'total-hardness': 180, 'cyanuric-acid': 0, salt: 40 };
/** mg/L; kits count by drops of about 10, 10, 10 and 200. Common practice, no source. */
const DROP_DEVIATION: Record<Quantity, number> = {
  'total-alkalinity': 6,
  'total-hardness': 8,
  'cyanuric-acid': 6,
  salt: 120,
};
/** mg of what is measured in a gram of the pure product. */
const MG_PER_GRAM = { acid: -1372.6, bicarbonate: 595.7, calcium: 680.8, stabilizer: 1000, salt: 1000 };
const MOVES = {
  acid: 'total-alkalinity',
  bicarbonate: 'total-alkalinity',
  calcium: 'total-hardness',
  stabilizer: 'cyanuric-acid',
  salt: 'salt',
} as const;
type Product = keyof typeof MOVES;

export function simulateSeason(settings: SeasonSettings): Season {
  const { next, normal } = randomFrom(settings.seed);
  const trueLitres = STATED_LITRES * Math.exp(0.1 * normal());
  const strength = Object.fromEntries(Object.keys(MOVES).map((name) => [name, Math.exp(0.1 * normal())]));
  const bias = Object.fromEntries(STRIP.map(({ quantity }) => [quantity, settings.sharedSteps * normal()]));
  const water: Record<Quantity, number> = {
    'total-alkalinity': 70 + 60 * next(),
    'total-hardness': 150 + 200 * next(),
    'cyanuric-acid': 25 + 35 * next(),
    salt: 2600 + 900 * next(),
  };
  const quantities = Object.keys(water) as Quantity[];
  const fillFactor = Object.fromEntries(quantities.map((quantity) => [quantity, Math.exp(0.3 * normal())]));
  const upsetDays = new Set(Array.from({ length: settings.upsets }, () => 40 + Math.floor(130 * next())));
  // What the meter always gets wrong.
  const { saltTest } = settings;
  const meterFactor = saltTest ? 1 + saltTest.gain * normal() : 1;
  // On 22 days of 100.
  const rainOfADay = settings.monthlyRain === undefined ? 8 : settings.monthlyRain / 30.4375 / 0.22;
  let missingMm = 0;
  let strips = 0;
  let nextStrip = 0;
  const days: SeasonDay[] = [];
  for (let day = 0; day < 190; day++) {
    const logged: SeasonDay['logged'][number][] = [];
    const unexplained: { quantity: Quantity; steps: number }[] = [];
    const season = Math.sin((Math.PI * (day + 20)) / 230);
    const mixIn = (litres: number, of: (quantity: Quantity) => number) => {
      const share = litres / trueLitres;
      for (const quantity of quantities) water[quantity] += share * (of(quantity) - water[quantity]);
    };
    const add = (what: Product, grams: number, isForgotten: boolean) => {
      const quantity = MOVES[what];
      const rise = (grams * strength[what]! * MG_PER_GRAM[what]) / trueLitres;
      const before = stepsOf(quantity, water[quantity]);
      water[quantity] = Math.max(0, water[quantity] + rise);
      if (!isForgotten) logged.push({ what, grams: grams * (1 + 0.03 * normal()) });
      else unexplained.push({ quantity, steps: stepsOf(quantity, water[quantity]) - before });
    };
    // Evaporation leaves everything behind; the level is kept from the hose.
    const evaporated = (1.5 + 5 * season) * (0.6 + 0.8 * next());
    missingMm += evaporated;
    for (const quantity of quantities) water[quantity] *= 1 + (evaporated * AREA_M2) / trueLitres;
    if (next() < 0.22) {
      const rain = -rainOfADay * Math.log(1 - next());
      missingMm -= rain;
      mixIn(rain * AREA_M2, () => 0);
      if (next() < 0.6) logged.push({ what: 'rain', mm: rain * Math.exp(0.25 * normal()) });
      if (missingMm < -40) missingMm = -40;
    }
    missingMm += 0.4;
    if (missingMm > 25) {
      mixIn(missingMm * AREA_M2, (quantity) => FILL[quantity] * fillFactor[quantity]!);
      missingMm = 0;
    }
    if (next() < 1 / 18) {
      const litres = 300 + 400 * next();
      mixIn(litres, (quantity) => FILL[quantity] * fillFactor[quantity]!);
      if (next() < 0.6) logged.push({ what: 'water', litres: litres * Math.exp(0.2 * normal()) });
    }
    if (upsetDays.has(day)) {
      const quantity = quantities[Math.floor(4 * next())]!;
      const before = stepsOf(quantity, water[quantity]);
      const size = 1 + 1.5 * next();
      const up = before + size <= padOf(quantity).blocks.length - 1.5 && (before - size < 0.5 || next() < 0.5);
      water[quantity] = valueAt(padOf(quantity), before + (up ? size : -size));
      unexplained.push({ quantity, steps: stepsOf(quantity, water[quantity]) - before });
    }
    water['cyanuric-acid'] *= 1 - 0.0015;
    water['total-alkalinity'] += 0.5 * normal();
    water['total-hardness'] += 0.4 * normal();

    // The owner, by the strip.
    const isForgotten = () => next() < settings.forgets;
    if (day % 6 === 3) add('acid', 90 + 90 * next(), isForgotten());
    let strip: StripReading[] | null = null;
    let dropTest: SeasonDay['dropTest'] = [];
    if (day === nextStrip) {
      strips += 1;
      nextStrip = day + 3 + Math.floor(5 * next());
      strip = STRIP.map((pad) => dip(pad, water[pad.quantity], bias[pad.quantity]!, settings, normal()));
      if (settings.hasDropTest && strips === 3) {
        dropTest = quantities.map((quantity) => {
          const deviation = DROP_DEVIATION[quantity];
          return { quantity, value: Math.max(0, water[quantity] + deviation * normal()), deviation };
        });
      }
    }
    const { readings: tests = 0, gain = 0 } = day === SALT_TEST_DAY || day === SALT_TEST_DAY + 1 ? { ...saltTest } : {};
    const whole = Math.hypot(gain, METER_REPEATS);
    const meter = Array.from({ length: tests }, () => ({
      value: water.salt * (meterFactor + METER_REPEATS * normal()),
      deviation: whole * water.salt,
      sharedVariance: (gain / whole) ** 2,
    }));
    const truth = { ...water };
    if (saltTest && day === SALT_TEST_DAY) {
      const grams = 1000 * saltTest.kilograms;
      water.salt += (1000 * grams) / trueLitres;
      logged.push({ what: 'salt', grams: grams * (1 + 0.01 * normal()) });
    }
    if (strip) {
      const seen = Object.fromEntries(strip.map(({ quantity, value }) => [quantity, value])) as Record<
        Quantity,
        number
      >;
      if (seen['total-alkalinity'] < 70)
        add('bicarbonate', (1.68 * (100 - seen['total-alkalinity']) * STATED_LITRES) / 1000, isForgotten());
      if (seen['cyanuric-acid'] < 25)
        add('stabilizer', ((40 - seen['cyanuric-acid']) * STATED_LITRES) / 1000, isForgotten());
      if (seen.salt < 2500) add('salt', ((3200 - seen.salt) * STATED_LITRES) / 1000, isForgotten());
      if (seen['total-hardness'] < 120)
        add('calcium', (1.47 * (200 - seen['total-hardness']) * STATED_LITRES) / 1000, isForgotten());
    }
    const isPure = saltTest !== undefined && day === SALT_TEST_DAY;
    days.push({ day, strip, dropTest, meter, isPure, logged, unexplained, truth });
  }
  return { statedLitres: STATED_LITRES, trueLitres, days };
}

function padOf(quantity: Quantity): StripPad {
  return STRIP.find((pad) => pad.quantity === quantity)!;
}

/** Where a value lies among the blocks, in steps; straight on beyond the ends. */
export function stepsOf(quantity: Quantity, value: number): number {
  const { blocks } = padOf(quantity);
  let i = 0;
  while (i < blocks.length - 2 && value > blocks[i + 1]!) i += 1;
  return i + (value - blocks[i]!) / (blocks[i + 1]! - blocks[i]!);
}

function valueAt({ blocks }: StripPad, steps: number): number {
  const last = blocks.length - 1;
  const at = Math.min(last, Math.max(0, steps));
  const i = Math.min(last - 1, Math.floor(at));
  return blocks[i]! + (at - i) * (blocks[i + 1]! - blocks[i]!);
}

function dip(pad: StripPad, truth: number, bias: number, settings: SeasonSettings, error: number): StripReading {
  const steps = stepsOf(pad.quantity, truth) + bias + settings.photoSteps * error;
  const half = 1.645 * settings.statedSteps;
  const last = pad.blocks.length - 1;
  return {
    quantity: pad.quantity,
    truth,
    value: valueAt(pad, steps),
    low: valueAt(pad, steps - half),
    high: valueAt(pad, steps + half),
    open: steps + half >= last ? 'above' : steps - half <= 0 && pad.blocks[0]! > 0 ? 'below' : null,
  };
}
