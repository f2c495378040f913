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

/** What one pass takes for granted and the next one corrects. */
export interface Guess {
  readonly calciumIon: number;
  readonly sodiumIon: number;
  readonly sulfateIon: number;
  readonly ionicStrength: number;
}

/**
 * @param ph -log of the activity of H+
 * @param near a composition that is much like this one: the nearer, the sooner it is found
 * @returns the composition; carbonate comes out negative where the given alkalinity is less than the other acids hold
 */
export function compose(
  ph: number,
  background: Background,
  given: CarbonGiven,
  at: ConstantsAt,
  near: Guess = unpaired(background),
): Composition {
  let bicarbonate = 0;
  let guess = near;
  for (let i = 0; ; i++) {
    const found = pass(ph, background, given, at, guess);
    const change = Math.abs(found.bicarbonate - bicarbonate) + Math.abs(found.ionicStrength - guess.ionicStrength);
    if (!(change > TOLERANCE * found.ionicStrength) || i === ITERATIONS) {
      return compositionOf(ph, at, guess.ionicStrength, found);
    }
    ({ bicarbonate } = found);
    guess = found;
  }
}

/** As if no ion were bound to another. */
function unpaired({ calcium, sodium, sulfate, chloride }: Background): Guess {
  const ionicStrength = 0.5 * (sodium + chloride + 4 * calcium);
  return { calciumIon: calcium, sodiumIon: sodium, sulfateIon: sulfate, ionicStrength };
}

/** From free ions and ionic strength to the carbonate, and back to free ions and an ionic strength. */
function pass(ph: number, background: Background, given: CarbonGiven, at: ConstantsAt, guess: Guess) {
  const h = 10 ** -ph;
  const logGamma1 = daviesLogGamma(at.debyeHuckel, guess.ionicStrength);
  const g1 = 10 ** logGamma1;
  const g2 = g1 * g1 * g1 * g1;
  const acids = otherAcids(h, background, at, g1);
  const shares = carbonateShares(h, at, g1, guess);
  const bicarbonate = bicarbonateFor(given, acids.alkalinity, shares);
  const ions = freeIons(Math.max(0, bicarbonate), background, at, g1, shares.carbonate, guess);
  const NaSO4 = at.naSO4 * g2 * ions.sodiumIon * ions.sulfateIon;
  const singly = ions.sodiumIon + background.chloride + NaSO4 + Math.abs(bicarbonate) * (1 + shares.CaHCO3);
  const doubly = ions.calciumIon + Math.abs(bicarbonate) * shares.carbonate + ions.sulfateIon;
  // I = ½ Σ z² c
  const ionicStrength = 0.5 * (singly + acids.strength + 4 * doubly);
  return { ...ions, ionicStrength, logGamma1, g2, acids, shares, bicarbonate, NaSO4 };
}

function compositionOf(
  ph: number,
  at: ConstantsAt,
  ionicStrength: number,
  { bicarbonate, shares, acids, calciumIon, sodiumIon, sulfateIon, logGamma1, g2, NaSO4 }: ReturnType<typeof pass>,
): Composition {
  const carbonateAlkalinity = bicarbonate * (shares.ones + 2 * shares.twos);
  return {
    ph,
    temperatureC: at.temperatureC,
    ionicStrength,
    logGamma1,
    carbonDioxide: bicarbonate * shares.carbonDioxide,
    bicarbonate,
    carbonate: bicarbonate * shares.carbonate,
    calciumIon,
    sodiumIon,
    sulfateIon,
    CaCO3: bicarbonate * shares.CaCO3,
    CaHCO3: bicarbonate * shares.CaHCO3,
    NaHCO3: bicarbonate * shares.NaHCO3,
    CaSO4: at.caSO4 * g2 * g2 * calciumIon * sulfateIon,
    NaSO4,
    inorganicCarbon: bicarbonate * (shares.carbonDioxide + shares.ones + shares.twos),
    alkalinity: carbonateAlkalinity + acids.alkalinity,
    carbonateAlkalinity,
    cyanurateAlkalinity: acids.cyanurate,
    borateAlkalinity: acids.borate,
    hypochloriteAlkalinity: acids.hypochlorite,
    waterAlkalinity: acids.water,
  };
}

/** Everything titratable but carbonate, equivalents/L, and Σ z²c of its ions. */
function otherAcids(h: number, { boron, chlorine, cyanurate }: Background, at: ConstantsAt, g1: number) {
  const hydrogen = h / g1;
  const hydroxide = at.kw / (h * g1);
  const borate = boron / (1 + (h * g1) / at.kBoric);
  const shared = shareChlorine(at.cyanurates, h, chlorine, cyanurate, g1);
  let charges = 0;
  let strength = hydrogen + hydroxide + borate + shared.hypochlorite;
  shared.species.forEach((concentration, i) => {
    const { charge } = at.cyanurates.species[i]!;
    charges += charge * concentration;
    strength += charge * charge * concentration;
  });
  const water = hydroxide - hydrogen;
  return {
    water,
    borate,
    cyanurate: charges,
    hypochlorite: shared.hypochlorite,
    alkalinity: water + borate + charges + shared.hypochlorite,
    strength,
  };
}

/** Carbonate species per mole of free bicarbonate; `ones` and `twos` by the acid they take. */
function carbonateShares(h: number, at: ConstantsAt, g1: number, guess: Guess) {
  const g2 = g1 * g1 * g1 * g1;
  const carbonate = (at.k2 * g1) / (h * g2);
  const NaHCO3 = at.naHCO3 * g1 * g1 * guess.sodiumIon;
  const CaHCO3 = at.caHCO3 * g2 * guess.calciumIon;
  const CaCO3 = at.caCO3 * g2 * g2 * guess.calciumIon * carbonate;
  const carbonDioxide = (h * g1) / at.k1;
  return { carbonDioxide, carbonate, NaHCO3, CaHCO3, CaCO3, ones: 1 + NaHCO3 + CaHCO3, twos: carbonate + CaCO3 };
}

type Shares = ReturnType<typeof carbonateShares>;

function bicarbonateFor(given: CarbonGiven, otherAlkalinity: number, { carbonDioxide, ones, twos }: Shares): number {
  if ('alkalinity' in given) return (given.alkalinity - otherAlkalinity) / (ones + 2 * twos);
  if ('inorganicCarbon' in given) return given.inorganicCarbon / (carbonDioxide + ones + twos);
  return given.carbonDioxide / carbonDioxide;
}

function freeIons(
  bicarbonate: number,
  background: Background,
  at: ConstantsAt,
  g1: number,
  carbonateShare: number,
  guess: Guess,
) {
  const g2 = g1 * g1 * g1 * g1;
  const sulfateIon = background.sulfate / (1 + at.caSO4 * g2 * g2 * guess.calciumIon + at.naSO4 * g2 * guess.sodiumIon);
  const byBicarbonate = bicarbonate * g2 * (at.caHCO3 + at.caCO3 * g2 * carbonateShare);
  return {
    sulfateIon,
    calciumIon: background.calcium / (1 + byBicarbonate + at.caSO4 * g2 * g2 * sulfateIon),
    sodiumIon: background.sodium / (1 + bicarbonate * at.naHCO3 * g1 * g1 + at.naSO4 * g2 * sulfateIon),
  };
}
