/** The settings and the fields of the plan in words. */
import type { Choice } from '../core/log/choices.ts';
import { climateIn, climateName, climateText } from './climate.ts';
import { quantityName, quantityTitle } from './quantities.ts';
import { PAD_QUANTITIES, QUANTITY_IDS } from '../core/measurement/quantities.ts';
import type { UnitSystem } from '../core/water/units.ts';
import { TARGET_IDS } from '../core/water/targets.ts';
import { targetName } from './plan/names.ts';
import { formatValue } from './numbers.ts';
import { flowText, outputText, temperatureText, volumeText } from './units.ts';

const NAMES: Readonly<Record<string, string>> = {
  'settings.units': 'units',
  'settings.eyes': 'your eyes',
  'settings.sound': 'sound of the timer',
  'settings.theme': 'paper',
  'settings.scale': 'strip scale to read with',
  'settings.pool': 'pool shown in the logbook',
  'plan.shelf': 'products on the shelf',
  'plan.bottles': 'what else is known of the products',
  'plan.spans': 'where readings should lie',
  'plan.pool.volumeLitres': 'volume',
  'plan.pool.volumeLowLitres': 'least the volume may be',
  'plan.pool.volumeHighLitres': 'most the volume may be',
  'plan.pool.surfaceM2': 'surface',
  'plan.pool.surface': 'lining',
  'plan.pool.chlorination': 'where the chlorine comes from',
  'plan.pool.stabilised': 'kept with stabilizer',
  'plan.pool.exposure': 'how it lies by day',
  'plan.pool.cover': 'cover',
  'plan.pool.heater': 'heater',
  'plan.pool.heat.kilowatts': 'what the heater gives',
  'plan.pool.heat.targetC': 'wanted warmth of the water',
  'plan.pool.filter.kind': 'filter',
  'plan.pool.filter.cleanBar': 'pressure of the clean filter',
  'plan.pool.winter': 'winters',
  'plan.pool.pump.litresPerHour': 'flow of the pump',
  'plan.pool.pump.basis': 'how the flow is known',
  'plan.pool.pump.hoursPerDay': 'hours of the pump a day',
  'plan.pool.cell.gramsPerHour': 'chlorinator at full output',
  'plan.pool.cell.setting': 'setting of the chlorinator',
};

const climateAt = (key: string) => climateIn(key.slice('plan.'.length));

const ENDS: Readonly<Record<string, string>> = { low: 'from', aim: 'aim', high: 'to' };

export function choiceName({ key }: Choice): string {
  const known = NAMES[key];
  if (known !== undefined) return known;
  const climate = climateAt(key);
  if (climate) return climateName(climate);
  const [, part, id = '', end = ''] = key.split('.');
  const target = TARGET_IDS.find((each) => each === id);
  if (part === 'targets' && target) return `own target for ${targetName(target)}, ${ENDS[end] ?? end}`;
  const quantity = QUANTITY_IDS.find((each) => each === id);
  if (part === 'fill' && quantity) return `tap water’s ${quantityName(quantity)}`;
  return key;
}

const VALUES: Readonly<Record<string, string>> = {
  'settings.units=metric': 'litres, grams, °C',
  'settings.units=us': 'US gallons, pounds, °F',
  'settings.eyes=full': 'full colour vision',
  'settings.eyes=protan': 'red-weak',
  'settings.eyes=deutan': 'green-weak',
  'settings.eyes=tritan': 'blue-weak',
  'settings.theme=auto': 'as the device has it',
  'settings.theme=paper': 'light',
  'settings.theme=night': 'dark',
};

const UNITS: Readonly<Record<string, string>> = {
  'plan.pool.surfaceM2': ' m²',
  'plan.pool.pump.hoursPerDay': ' h',
  'plan.pool.filter.cleanBar': ' bar',
  'plan.pool.heat.kilowatts': ' kW',
};

export function choiceText({ key, value }: Choice, units: UnitSystem): string {
  if (typeof value === 'string') return VALUES[`${key}=${value}`] ?? (value === '' ? 'blank' : value);
  if (typeof value === 'object')
    return key === 'plan.shelf' ? shelfText(value) : key === 'plan.bottles' ? bottlesText(value) : spansText(value);
  const climate = climateAt(key);
  if (climate) return climateText(climate, value, units);
  if (/^plan\.pool\.volume(Low|High)?Litres$/.test(key)) return volumeText(value, units);
  if (key === 'plan.pool.heat.targetC') return temperatureText(value, units);
  if (key === 'plan.pool.pump.litresPerHour') return flowText(value, units);
  if (key === 'plan.pool.cell.gramsPerHour') return outputText(value, units);
  if (key === 'plan.pool.cell.setting') return `${formatValue(value * 100)} %`;
  return `${formatValue(value)}${UNITS[key] ?? ''}`;
}

function shelfText(shelf: object): string {
  const items = Object.entries(shelf as Record<string, string>).map(
    ([product, strength]) => product.replaceAll('-', ' ') + (strength === '' ? '' : ` ${strength} %`),
  );
  return items.length === 0 ? 'none' : items.join(', ');
}

function bottlesText(bottles: object): string {
  return Object.keys(bottles)
    .map((product) => product.replaceAll('-', ' '))
    .join(', ');
}

function spansText(spans: object): string {
  const known = spans as Partial<Record<string, { readonly low: number; readonly high: number }>>;
  return PAD_QUANTITIES.flatMap((id) => {
    const span = known[id];
    return span ? [`${quantityTitle(id)} ${formatValue(span.low)} to ${formatValue(span.high)}`] : [];
  }).join(', ');
}
