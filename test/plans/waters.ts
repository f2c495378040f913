/** Thirty waters as a pool owner meets them, for reading their plans side by side. */
interface Reading {
  value: number;
  low: number;
  high: number;
}
type Readings = Readonly<Record<string, Reading>>;

const span = (value: number, by: number): Reading => ({ value, low: Math.max(0, value - by), high: value + by });

/** Balanced, as sure as a fresh drop test: free chlorine, pH, alkalinity, calcium, stabilizer, salt, temperature. */
const BALANCED: Readings = {
  'free-chlorine': span(4, 0.3),
  ph: span(7.5, 0.1),
  'total-alkalinity': span(80, 5),
  'calcium-hardness': span(220, 15),
  'cyanuric-acid': span(45, 5),
  salt: span(3100, 100),
  temperature: span(26, 1),
};

const SHELF = [
  { product: 'hydrochloric-acid', strength: 31.45 },
  { product: 'sodium-bicarbonate' },
  { product: 'soda-ash' },
  { product: 'sodium-hypochlorite', strength: 12.5 },
  { product: 'calcium-chloride', strength: 77 },
  { product: 'salt' },
  { product: 'cyanuric-acid' },
];
/** The round pool in a hillside garden: 5.5 m across, 1.1 m deep. */
const POOL = {
  volumeLitres: 26_100,
  surfaceM2: 23.8,
  surface: 'vinyl',
  heater: 'none',
  chlorination: 'chlorinator',
  stabilised: true,
  pump: { litresPerHour: 6000, basis: 'rated', hoursPerDay: 8 },
  cell: { gramsPerHour: 12 },
};
const BY_HAND = { chlorination: 'hypochlorite' };
const FILL = { ph: 7.6, 'total-alkalinity': 90, 'calcium-hardness': 150, salt: 50, 'cyanuric-acid': 0 };

export interface Case {
  readonly name: string;
  readonly input: unknown;
}

function water(name: string, readings: Readings = {}, change: Record<string, unknown> = {}): Case {
  const { pool, ...rest } = change;
  return {
    name,
    input: {
      pool: { ...POOL, ...(pool as object | undefined) },
      readings: { ...BALANCED, ...readings },
      look: { water: 'clear', bottomVisible: true },
      shelf: SHELF,
      fill: FILL,
      ...rest,
    },
  };
}

const GREEN = { look: { water: 'green', bottomVisible: false } };
const NONE = { value: 0, low: 0, high: 0.2 };

export const WATERS: readonly Case[] = [
  water('Balanced'),
  water('Chlorine a little low', { 'free-chlorine': span(1.5, 0.2) }),
  water('Chlorine a little low, no bottle', { 'free-chlorine': span(1.5, 0.2) }, { shelf: [] }),
  water('No chlorine left', { 'free-chlorine': NONE }),
  water(
    'Chlorine 8, no stabilizer',
    { 'free-chlorine': span(8, 0.3), 'cyanuric-acid': span(0, 0) },
    { pool: { ...BY_HAND, stabilised: false } },
  ),
  water('Chlorine 15', { 'free-chlorine': span(15, 1) }),
  water('Chlorine 0, other pads pale', { 'free-chlorine': NONE }, { look: { water: 'clear', padsPale: true } }),
  water('Total 3, free 0', { 'free-chlorine': NONE, 'total-chlorine': span(3, 0.2) }),
  water('Combined 0.7', { 'free-chlorine': span(3, 0.05), 'total-chlorine': span(3.7, 0.05) }),
  water('pH 8.2', { ph: span(8.2, 0.1) }),
  water('pH 7.8, may be high', { ph: span(7.8, 0.15) }),
  water('pH 6.9, alkalinity 130', { ph: span(6.9, 0.05), 'total-alkalinity': span(130, 5) }),
  water(
    'The same with a copper heater',
    { ph: span(6.9, 0.05), 'total-alkalinity': span(130, 5) },
    { pool: { heater: 'copper' } },
  ),
  water('pH 6.9, alkalinity 35', { ph: span(6.9, 0.05), 'total-alkalinity': span(35, 5) }),
  water('pH 8.1, alkalinity 40', { ph: span(8.1, 0.05), 'total-alkalinity': span(40, 5) }),
  water('Alkalinity 220', { 'total-alkalinity': span(220, 10) }),
  water('Calcium 50, liner', { 'calcium-hardness': span(50, 5) }),
  water('Calcium 50, plaster', { 'calcium-hardness': span(50, 5) }, { pool: { surface: 'plaster' } }),
  water('Calcium 900, pH 7.7', { 'calcium-hardness': span(900, 20), ph: span(7.7, 0.05) }),
  water('Stabilizer 0', { 'cyanuric-acid': span(0, 0) }),
  water('Stabilizer 80', { 'cyanuric-acid': span(80, 5) }),
  water('Stabilizer 150', { 'cyanuric-acid': span(150, 10) }),
  water('Salt 1,500', { salt: span(1500, 100) }),
  water('Salt 5,500', { salt: span(5500, 200) }),
  water('Green, stabilizer 30', { 'free-chlorine': NONE, 'cyanuric-acid': span(30, 5), ph: span(7.8, 0.1) }, GREEN),
  water(
    'Green, 80 m³, stabilizer 80',
    { 'free-chlorine': NONE, 'cyanuric-acid': span(80, 5), ph: span(7.9, 0.1) },
    { ...GREEN, pool: { ...BY_HAND, volumeLitres: 80_000, surfaceM2: 60 } },
  ),
  water('Cloudy', {}, { look: { water: 'cloudy', bottomVisible: true } }),
  water('8 °C', { temperature: span(8, 1), 'free-chlorine': span(3, 0.2) }),
  water(
    'A spa at 38 °C',
    { temperature: span(38, 1), 'free-chlorine': span(2, 0.2), 'cyanuric-acid': span(0, 0), salt: span(500, 50) },
    { pool: { ...BY_HAND, kind: 'spa', volumeLitres: 1500, surfaceM2: 3 } },
  ),
  water('First fill with soft tap water', {
    'free-chlorine': NONE,
    ph: span(7.9, 0.05),
    'total-alkalinity': span(40, 5),
    'calcium-hardness': span(35, 5),
    'cyanuric-acid': span(0, 0),
    salt: span(60, 20),
    temperature: span(21, 1),
  }),
];
