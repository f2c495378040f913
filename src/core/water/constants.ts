/**
 * Constants of the water's chemistry. Equilibrium constants are at zero ionic strength, in mol/L and atmospheres;
 * T is in kelvin, logarithms are base 10. Nothing here is adjusted to fit a check.
 */
import { fromMemory, read, readElsewhere, type Provenance } from '../provenance.ts';

/** g/mol, from the IUPAC conventional atomic weights. */
export const MOLAR_MASS = {
  CaCO3: 100.086,
  NaHCO3: 84.006,
  Na2CO3: 105.988,
  NaOH: 39.997,
  HCl: 36.458,
  NaHSO4: 120.055,
  CaCl2: 110.978,
  'CaCl2·2H2O': 147.008,
  NaCl: 58.44,
  Cl2: 70.9,
  NaOCl: 74.439,
  'Ca(OCl)2': 142.974,
  cyanuricAcid: 129.075,
  trichlor: 232.4,
  dichlor: 219.94,
  dichlorDihydrate: 255.97,
  'Na2S2O3·5H2O': 248.17,
  B: 10.81,
  boricAcid: 61.83,
  boraxDecahydrate: 381.36,
  SO4: 96.056,
  CO2: 44.009,
} as const;

export const ZERO_CELSIUS = 273.15;
export const KELVIN_25C = 298.15;
/** J/(mol K), exact since the SI of 2019. */
const GAS_CONSTANT = 8.314462618;

/** An equilibrium constant as a function of temperature. */
export interface LogConstant extends Provenance {
  /** log K at T kelvin. */
  readonly log: (kelvin: number) => number;
  /** Where the source vouches for it, °C. */
  readonly validC: readonly [number, number];
}

/** a + b T + c/T + d log T + e/T², the form of Plummer & Busenberg. */
function fitted(a: number, b: number, c: number, d: number, e = 0) {
  return (kelvin: number) => a + b * kelvin + c / kelvin + d * Math.log10(kelvin) + e / (kelvin * kelvin);
}

/** van 't Hoff from 25 °C with a constant enthalpy, kJ/mol. */
function vantHoff(log25: number, enthalpyKJ: number) {
  const slope = (enthalpyKJ * 1000) / (GAS_CONSTANT * Math.LN10);
  return (kelvin: number) => log25 - slope * (1 / kelvin - 1 / KELVIN_25C);
}

const KILOCALORIE = 4.184;
const PLUMMER_BUSENBERG = 'Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040';
const IN_WATEQ4F = `${PLUMMER_BUSENBERG}; coefficients read in wateq4f.dat (USGS)`;
/** Calcite and the ion pairs come from one revision of one data file, because each was fitted with the others. */
const PHREEQC = 'data file of USGS PHREEQC 3.8';
const PB_RANGE = [0, 90] as const;

/** CO2(aq) + H2O = H+ + HCO3-, where CO2(aq) includes H2CO3. */
export const CARBONIC_1: LogConstant = {
  log: fitted(-356.3094, -0.06091964, 21834.37, 126.8339, -1684915),
  validC: PB_RANGE,
  ...readElsewhere(IN_WATEQ4F),
};
/** HCO3- = H+ + CO3²-. */
export const CARBONIC_2: LogConstant = {
  log: fitted(-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9),
  validC: PB_RANGE,
  ...readElsewhere(IN_WATEQ4F),
};
/** CO2(g) = CO2(aq), mol/(L atm). */
export const HENRY_CO2: LogConstant = {
  log: fitted(108.3865, 0.01985076, -6919.53, -40.45154, 669365),
  validC: PB_RANGE,
  ...readElsewhere(`${PLUMMER_BUSENBERG}; coefficients read in several public codes`),
};
/**
 * CaCO3 (calcite) = Ca²+ + CO3²-. A fit through Ellis 1959 and Plummer & Busenberg 1982; their own fit agrees at
 * 25 °C and gives an index lower by 0.01 at 30 °C and 0.04 at 40 °C.
 */
export const CALCITE: LogConstant = {
  log: fitted(17.118, -0.046528, -3496, 0),
  validC: [0, 250],
  ...read(PHREEQC),
};
/** Ca²+ + CO3²- = CaCO3°. */
export const PAIR_CACO3: LogConstant = {
  log: fitted(-1228.732, -0.299444, 35512.75, 485.818),
  validC: PB_RANGE,
  ...readElsewhere(IN_WATEQ4F),
};
/** Ca²+ + HCO3- = CaHCO3+; 0.59 at 25 °C, where Plummer & Busenberg 1982 have 1.11. */
export const PAIR_CAHCO3: LogConstant = {
  log: (kelvin) => -6.009 + 0.03377 * kelvin + 2044 / kelvin + CARBONIC_2.log(kelvin),
  validC: [0, 45],
  ...read(PHREEQC),
};
/** Na+ + HCO3- = NaHCO3°; wateq4f.dat has -0.25. NaCO3- is left out, as in the same file: Davies' equation covers it. */
export const PAIR_NAHCO3: LogConstant = { log: vantHoff(-0.06, 21), validC: [0, 45], ...read(PHREEQC) };
/** Ca²+ + SO4²- = CaSO4°. */
export const PAIR_CASO4: LogConstant = { log: vantHoff(2.25, 1.325 * KILOCALORIE), validC: [0, 45], ...read(PHREEQC) };
/** Na+ + SO4²- = NaSO4-. */
export const PAIR_NASO4: LogConstant = {
  log: vantHoff(0.7, 1.12 * KILOCALORIE),
  validC: [0, 45],
  ...read('wateq4f.dat (USGS PHREEQC 3)'),
};
/** H2O = H+ + OH-. */
export const WATER_ION: LogConstant = {
  log: (kelvin) => fitted(293.29227, 0.1360833, -10576.913, -123.73158)(kelvin) - 6.996455e-5 * kelvin * kelvin,
  validC: [0, 100],
  ...read(PHREEQC),
};
/** B(OH)3 + H2O = H+ + B(OH)4-. */
export const BORIC: LogConstant = {
  log: vantHoff(-9.24, 3.224 * KILOCALORIE),
  validC: [0, 45],
  ...read('phreeqc.dat and wateq4f.dat (USGS); within 0.03 of Dickson 1990 at zero salinity'),
};

const OBRIEN =
  "O'Brien, Morris & Butler 1974, in Rubin (ed.), Chemistry of Water Supply, Treatment and Distribution, pp. 333-358 (25 °C); read in the US EPA simulator EPA/600/S-17/165";
const WAHMAN_2018 = 'Wahman 2018, Environ. Sci.: Water Res. Technol. 4:1522-1530';
const WAHMAN_ALEXANDER = 'Wahman & Alexander 2019, Environ. Eng. Sci. 36(3):283-294';
const WAHMAN_RANGE = [5, 35] as const;

/** Slopes of pK against 1/T found by Wahman 2018 and Wahman & Alexander 2019, kelvin. */
const SLOPE_K6 = 1743;
const SLOPE_K7A = 2028;
const SLOPE_K9A = 2229;

/** A constant of 1974, known at 25 °C only, carried to other temperatures by the slope of the later measurements. */
function carried(pk25: number, slope: number): LogConstant {
  return {
    log: (kelvin) => -(pk25 + slope * (1 / kelvin - 1 / KELVIN_25C)),
    validC: WAHMAN_RANGE,
    ...readElsewhere(`${OBRIEN}; slope with temperature from ${WAHMAN_ALEXANDER}`),
  };
}

function at25(pk: number): LogConstant {
  return { log: () => -pk, validC: [25, 25], ...readElsewhere(OBRIEN) };
}

function morris(kelvin: number): number {
  return 3000 / kelvin - 10.0686 + 0.0253 * kelvin;
}

/** HOCl = H+ + OCl-. */
export const HYPOCHLOROUS_MORRIS: LogConstant = {
  log: (kelvin) => -morris(kelvin),
  validC: [0, 35],
  ...readElsewhere('Morris 1966, J. Phys. Chem. 70:3798-3805; read in several public codes'),
};
/** The same as O'Brien et al. used it: 7.54 at 25 °C, with Morris' slope. */
export const HYPOCHLOROUS_1974: LogConstant = {
  log: (kelvin) => -(7.54 + morris(kelvin) - morris(KELVIN_25C)),
  validC: [0, 35],
  ...readElsewhere(OBRIEN),
};

/** The set of 1974. Names follow the publication; Cy is the C3N3O3 core, H3Cy cyanuric acid. */
export const OBRIEN_1974 = {
  /** H3Cy = H2Cy- + H+ */
  K6: carried(6.88, SLOPE_K6),
  /** H2Cy- = HCy²- + H+ */
  K10: at25(11.4),
  /** HCy²- = Cy³- + H+ */
  K12: at25(13.5),
  /** HClCy- + H2O = H2Cy- + HOCl; derived from K8, K11a and K10 */
  K9a: carried(5.62, SLOPE_K9A),
  /** HClCy- = ClCy²- + H+ */
  K8: at25(10.12),
  /** H2ClCy = HClCy- + H+ */
  K4: at25(5.33),
  /** Cl2Cy- + H2O = HClCy- + HOCl */
  K7a: carried(4.51, SLOPE_K7A),
  /** HCl2Cy = Cl2Cy- + H+ */
  K2: at25(3.75),
  /** Cl3Cy + H2O = HCl2Cy + HOCl */
  K1a: at25(1.8),
} as const;

/** The later set, for H3Cy, H2Cy-, HClCy- and Cl2Cy- only. */
export const WAHMAN_2019 = {
  K6: { log: (kelvin: number) => -(SLOPE_K6 / kelvin + 1.12), validC: WAHMAN_RANGE, ...read(WAHMAN_2018) },
  K7a: { log: (kelvin: number) => -(SLOPE_K7A / kelvin - 2.15), validC: WAHMAN_RANGE, ...read(WAHMAN_ALEXANDER) },
  K9a: {
    log: (kelvin: number) => -(SLOPE_K9A / kelvin - 1.65),
    validC: WAHMAN_RANGE,
    ...readElsewhere(`${WAHMAN_ALEXANDER}; read in the US EPA estimator v1.0`),
  },
} as const satisfies Record<string, LogConstant>;

/** Carbon dioxide in outdoor air, atm: global mean of about 420 ppm by volume in dry air. */
export const AIR_CO2: Provenance & { readonly atm: number } = {
  atm: 420e-6,
  ...readElsewhere('NOAA Global Monitoring Laboratory and WMO, annual means of 2023: 419.3 and 420 ppm'),
};

/** Range of the model as a whole: temperature in °C, ionic strength in mol/L (Davies). */
export const MODEL_RANGE = {
  temperatureC: [0, 45],
  ionicStrength: 0.5,
  ...fromMemory('Davies 1962, Ion Association'),
} as const;
