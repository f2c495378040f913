/** The species of a water at one pH: ion pairs, activities and ionic strength, solved together. */
import { daviesLogGamma, debyeHuckelSlope } from './activity.ts';
import {
  BORIC,
  CALCITE,
  CARBONIC_1,
  CARBONIC_2,
  HENRY_CO2,
  PAIR_CACO3,
  PAIR_CAHCO3,
  PAIR_CASO4,
  PAIR_NAHCO3,
  PAIR_NASO4,
  WATER_ION,
  ZERO_CELSIUS,
  type LogConstant,
} from './constants.ts';
import { cyanuratesAt, MODEL_1974, shareChlorine, type CyanuratesAt } from './cyanurates.ts';
import type { Contents } from './water.ts';

/** Constants at one temperature. */
export interface ConstantsAt {
  readonly temperatureC: number;
  readonly k1: number;
  readonly k2: number;
  readonly kw: number;
  readonly kBoric: number;
  readonly logCalcite: number;
  readonly henry: number;
  readonly caCO3: number;
  readonly caHCO3: number;
  readonly naHCO3: number;
  readonly caSO4: number;
  readonly naSO4: number;
  readonly debyeHuckel: number;
  readonly cyanurates: CyanuratesAt;
}

export function constantsAt(temperatureC: number): ConstantsAt {
  const kelvin = temperatureC + ZERO_CELSIUS;
  const k = (constant: LogConstant) => 10 ** constant.log(kelvin);
  return {
    temperatureC,
    k1: k(CARBONIC_1),
    k2: k(CARBONIC_2),
    kw: k(WATER_ION),
    kBoric: k(BORIC),
    logCalcite: CALCITE.log(kelvin),
    henry: k(HENRY_CO2),
    caCO3: k(PAIR_CACO3),
    caHCO3: k(PAIR_CAHCO3),
    naHCO3: k(PAIR_NAHCO3),
    caSO4: k(PAIR_CASO4),
    naSO4: k(PAIR_NASO4),
    debyeHuckel: debyeHuckelSlope(kelvin),
    cyanurates: cyanuratesAt(MODEL_1974, kelvin),
  };
}

/** What is fixed about the carbonate besides the pH: the alkalinity, the carbon, or the dissolved CO2. */
export type CarbonGiven =
  { readonly alkalinity: number } | { readonly inorganicCarbon: number } | { readonly carbonDioxide: number };

/** What is dissolved apart from carbonate, mol/L, sodium and chloride by charge balance. */
export interface Background {
  readonly calcium: number;
  readonly sodium: number;
  readonly chloride: number;
  readonly sulfate: number;
  readonly cyanurate: number;
  readonly boron: number;
  readonly chlorine: number;
}

/** Sodium and chloride follow from electroneutrality: see `Water`. */
export function backgroundOf(contents: Omit<Contents, 'inorganicCarbon'>): Background {
  const { alkalinity, calcium, salt, sulfate, cyanurate, boron, chlorine } = contents;
  return {
    calcium,
    sodium: salt + alkalinity + 2 * sulfate - chlorine,
    chloride: salt + 2 * calcium - chlorine,
    sulfate,
    cyanurate,
    boron,
    chlorine,
  };
}

/** Concentrations in mol/L. */
export interface Composition {
  readonly ph: number;
  readonly temperatureC: number;
  readonly ionicStrength: number;
  /** log γ of a single charge. */
  readonly logGamma1: number;
  readonly carbonDioxide: number;
  readonly bicarbonate: number;
  readonly carbonate: number;
  readonly calciumIon: number;
  readonly sodiumIon: number;
  readonly sulfateIon: number;
  readonly CaCO3: number;
  readonly CaHCO3: number;
  readonly NaHCO3: number;
  readonly CaSO4: number;
  readonly NaSO4: number;
  readonly inorganicCarbon: number;
  /** Alkalinity and its parts, equivalents/L. */
  readonly alkalinity: number;
  readonly carbonateAlkalinity: number;
  readonly cyanurateAlkalinity: number;
  readonly borateAlkalinity: number;
  readonly hypochloriteAlkalinity: number;
  readonly waterAlkalinity: number;
}

const ITERATIONS = 500;
const TOLERANCE = 1e-13;

/**
 * @param ph -log of the activity of H+
 * @returns the composition; carbonate comes out negative where the given alkalinity is less than the other acids hold
 */
export function compose(ph: number, background: Background, given: CarbonGiven, at: ConstantsAt): Composition {
  const h = 10 ** -ph;
  let state = { bicarbonate: 0, calciumIon: background.calcium, sodiumIon: background.sodium };
  let sulfateIon = background.sulfate;
  let ionicStrength = 0.5 * (background.sodium + background.chloride + 4 * background.calcium);
  for (let i = 0; ; i++) {
    const next = step(h, background, given, at, { ...state, sulfateIon, ionicStrength });
    const change =
      Math.abs(next.composition.bicarbonate - state.bicarbonate) + Math.abs(next.ionicStrength - ionicStrength);
    if (change <= TOLERANCE * ionicStrength || i === ITERATIONS) return next.composition;
    ({ ionicStrength } = next);
    ({ sulfateIon } = next.composition);
    state = next.composition;
  }
}

interface Guess {
  readonly calciumIon: number;
  readonly sodiumIon: number;
  readonly sulfateIon: number;
  readonly ionicStrength: number;
}

/** One pass: from free calcium, sodium, sulfate and ionic strength to all species, and back to those four. */
function step(h: number, background: Background, given: CarbonGiven, at: ConstantsAt, guess: Guess) {
  const logGamma1 = daviesLogGamma(at.debyeHuckel, guess.ionicStrength);
  const g1 = 10 ** logGamma1;
  const g2 = g1 ** 4;

  const hydrogen = h / g1;
  const hydroxide = at.kw / (h * g1);
  const borate = background.boron / (1 + (h * g1) / at.kBoric);
  const chlorine = shareChlorine(at.cyanurates, h, background.chlorine, background.cyanurate, logGamma1);
  let cyanurateAlkalinity = 0;
  let cyanurateStrength = 0;
  chlorine.species.forEach((concentration, k) => {
    const { charge } = at.cyanurates.species[k]!;
    cyanurateAlkalinity += charge * concentration;
    cyanurateStrength += charge * charge * concentration;
  });
  const waterAlkalinity = hydroxide - hydrogen;
  const otherAlkalinity = waterAlkalinity + borate + cyanurateAlkalinity + chlorine.hypochlorite;

  // Everything carbonate, per mole of free bicarbonate.
  const carbonDioxideShare = (h * g1) / at.k1;
  const carbonateShare = (at.k2 * g1) / (h * g2);
  const naHCO3Share = at.naHCO3 * g1 * g1 * guess.sodiumIon;
  const caHCO3Share = at.caHCO3 * g2 * guess.calciumIon;
  const caCO3Share = at.caCO3 * g2 * g2 * guess.calciumIon * carbonateShare;
  const ones = 1 + naHCO3Share + caHCO3Share;
  const twos = carbonateShare + caCO3Share;

  let bicarbonate: number;
  if ('alkalinity' in given) bicarbonate = (given.alkalinity - otherAlkalinity) / (ones + 2 * twos);
  else if ('inorganicCarbon' in given) bicarbonate = given.inorganicCarbon / (carbonDioxideShare + ones + twos);
  else bicarbonate = given.carbonDioxide / carbonDioxideShare;

  const carbonate = bicarbonate * carbonateShare;
  const sulfateIon = background.sulfate / (1 + at.caSO4 * g2 * g2 * guess.calciumIon + at.naSO4 * g2 * guess.sodiumIon);
  const pairedWithCarbonate = Math.max(0, bicarbonate);
  const calciumIon =
    background.calcium /
    (1 + pairedWithCarbonate * g2 * (at.caHCO3 + at.caCO3 * g2 * carbonateShare) + at.caSO4 * g2 * g2 * sulfateIon);
  const sodiumIon = background.sodium / (1 + pairedWithCarbonate * at.naHCO3 * g1 * g1 + at.naSO4 * g2 * sulfateIon);

  const carbonateAlkalinity = bicarbonate * (ones + 2 * twos);
  const composition: Composition = {
    ph: -Math.log10(h),
    temperatureC: at.temperatureC,
    ionicStrength: guess.ionicStrength,
    logGamma1,
    carbonDioxide: bicarbonate * carbonDioxideShare,
    bicarbonate,
    carbonate,
    calciumIon,
    sodiumIon,
    sulfateIon,
    CaCO3: bicarbonate * caCO3Share,
    CaHCO3: bicarbonate * caHCO3Share,
    NaHCO3: bicarbonate * naHCO3Share,
    CaSO4: at.caSO4 * g2 * g2 * calciumIon * sulfateIon,
    NaSO4: at.naSO4 * g2 * sodiumIon * sulfateIon,
    inorganicCarbon: bicarbonate * (carbonDioxideShare + ones + twos),
    alkalinity: carbonateAlkalinity + otherAlkalinity,
    carbonateAlkalinity,
    cyanurateAlkalinity,
    borateAlkalinity: borate,
    hypochloriteAlkalinity: chlorine.hypochlorite,
    waterAlkalinity,
  };
  const singly = composition.NaSO4 + Math.abs(composition.CaHCO3) + Math.abs(bicarbonate);
  const ionicStrength =
    0.5 *
    (sodiumIon +
      background.chloride +
      singly +
      borate +
      cyanurateStrength +
      chlorine.hypochlorite +
      hydrogen +
      hydroxide +
      4 * (calciumIon + Math.abs(carbonate) + sulfateIon));
  return { composition, ionicStrength };
}
