/** What the plan's form says, each part in one line, so that it can fold away. */
import { QUANTITIES, type QuantityId } from '../../core/measurement/quantities.ts';
import { convertTemperature, type UnitSystem } from '../../core/water/units.ts';
import { countText } from '../grammar.ts';
import { formatMeasured, formatValue, numberText } from '../numbers.ts';
import { outputText, volumeText } from '../units.ts';

interface Told {
  readonly value?: unknown;
  readonly method?: unknown;
  readonly offScale?: unknown;
}
type Readings = Readonly<Partial<Record<string, Told>>>;

const SHORT: Record<QuantityId, string> = {
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
  ph: 'pH',
  'total-alkalinity': 'alkalinity',
  'total-hardness': 'hardness',
  'calcium-hardness': 'calcium',
  'cyanuric-acid': 'stabilizer',
  salt: 'salt',
  boron: 'boron',
  temperature: 'water',
};

/** "free chlorine 1.0, pH under 6.4": a photo's value to the step it supports, a typed one as it was typed. */
export function readingsLine(ids: readonly QuantityId[], readings: Readings, units: UnitSystem): string {
  const told = ids.flatMap((id) => {
    const told = readings[id];
    if (typeof told?.value !== 'number' || !Number.isFinite(told.value)) return [];
    const beyond = told.offScale === 'below' ? 'under ' : told.offScale === 'above' ? 'over ' : '';
    return [`${SHORT[id]} ${beyond}${valueText(id, told.value, told.method === 'photo', units)}`];
  });
  return told.length > 0 ? told.join(', ') : 'nothing yet';
}

function valueText(id: QuantityId, value: number, isPhoto: boolean, units: UnitSystem): string {
  const { unit } = QUANTITIES[id];
  if (unit !== '°C') return isPhoto ? formatMeasured(value, unit) : formatValue(value);
  const shown = units === 'us' ? convertTemperature(value, 'C', 'F') : value;
  return `${numberText(Math.round(shown))} ${units === 'us' ? '°F' : '°C'}`;
}

export interface PoolTold {
  readonly volumeLitres?: unknown;
  readonly volumeLowLitres?: unknown;
  readonly volumeHighLitres?: unknown;
  readonly surface?: unknown;
  readonly chlorination?: unknown;
  readonly cell?: { readonly gramsPerHour?: unknown };
}

const CHLORINE: Readonly<Record<string, string>> = {
  chlorinator: 'chlorinator',
  hypochlorite: 'liquid chlorine',
  trichlor: 'trichlor',
  dichlor: 'dichlor',
};

/** "28,500 L (27,100 to 29,900 L), vinyl, chlorinator 12 g/h" */
export function poolLine(pool: PoolTold, units: UnitSystem): string {
  const { volumeLitres, volumeLowLitres: low, volumeHighLitres: high, surface, chlorination, cell } = pool;
  const volume = isNumber(volumeLitres) ? shortVolume(volumeLitres, units) : 'volume not told';
  const span = isNumber(low) && isNumber(high) ? ` (${shortVolume(low, units)} to ${shortVolume(high, units)})` : '';
  const output = cell?.gramsPerHour;
  const chlorine = CHLORINE[String(chlorination)] ?? '';
  const made = typeof output === 'number' && chlorination === 'chlorinator' ? ` ${outputText(output, units)}` : '';
  return [volume + span, String(surface ?? ''), chlorine + made].filter((part) => part !== '').join(', ');
}

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

function shortVolume(litres: number, units: UnitSystem): string {
  return units === 'us' ? volumeText(litres, units, 3) : volumeText(litres, units);
}

export function shelfLine(products: number): string {
  return products > 0 ? countText(products, 'product', 'products') : 'no product';
}
