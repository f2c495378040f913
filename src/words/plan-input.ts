/** What is wrong with the input of a plan, in the units of who typed it. */
import { cleanText } from '../core/text.ts';
import { QUANTITIES, QUANTITY_IDS, type QuantityId } from '../core/measurement/quantities.ts';
import type { InputFault } from '../core/pool/schema.ts';
import type { PlanIssue } from '../core/water/plan/types.ts';
import { climateIn, climateName, climateText } from './climate.ts';
import { productName } from './plan/names.ts';
import { convert, convertTemperature, type UnitSystem } from '../core/water/units.ts';
import { listText } from './grammar.ts';
import { numberText } from './numbers.ts';
import { quantityName } from './quantities.ts';

interface Place {
  /** With its article, as it stands in a sentence. */
  readonly name: string;
  /** Its number in the visitor's unit, unit included. */
  readonly show: Show;
}

/** @param figures at most; what was typed keeps its own */
type Show = (metric: number, figures?: number) => string;
type Convert = (metric: number) => number;
const same: Convert = (value) => value;
/** Figures of a typed number: enough for any, and few enough to hide the rounding of a conversion. */
const TYPED = 9;
/** Figures of a limit in other units. */
const LIMIT = 4;

function inUnits(units: UnitSystem, metric: string, us: string, toUs: Convert): Show {
  const [unit, convertIt] = units === 'us' ? [us, toUs] : [metric, same];
  return (value, figures = TYPED) => numberText(convertIt(value), { figures }) + unit;
}

/** Every field that can be wrong by its place, without the numbers of lists. */
function fieldPlace(place: string, units: UnitSystem): Place {
  const climate = climateIn(place);
  if (climate) return { name: `the ${climateName(climate)}`, show: (value) => climateText(climate, value, units) };
  const plain = (name: string, unit = ''): Place => ({ name, show: inUnits(units, unit, unit, same) });
  const volume = inUnits(units, ' L', ' US gal', (value) => convert('volume', value, 'L', 'gal'));
  switch (place) {
    case 'pool.volumeLitres':
      return { name: 'the volume', show: volume };
    case 'pool.volumeLowLitres':
      return { name: 'the lower end of the volume', show: volume };
    case 'pool.volumeHighLitres':
      return { name: 'the upper end of the volume', show: volume };
    case 'pool.surfaceM2':
      return {
        name: 'the surface of the water',
        show: inUnits(units, ' m²', ' sq ft', (value) => convert('area', value, 'm2', 'ft2')),
      };
    case 'pool.pump.litresPerHour':
      return {
        name: 'the flow of the pump',
        show: inUnits(units, ' L/h', ' gpm', (value) => convert('flow', value, 'L/h', 'gal/min')),
      };
    case 'pool.cell.gramsPerHour':
      return {
        name: 'the output of the chlorinator',
        show: inUnits(units, ' g/h', ' lb a day', (value) => convert('output', value, 'g/h', 'lb/day')),
      };
    case 'pool.cell.setting':
      return {
        name: 'the setting of the chlorinator',
        show: (share, figures = TYPED) => `${numberText(100 * share, { figures })} %`,
      };
    case 'chlorineLoss.hours':
      return plain('the hours between the readings', ' h');
    default:
      return plain(NAMES[place] ?? QUESTIONS[place] ?? 'this');
  }
}

const NAMES: Readonly<Record<string, string>> = {
  pool: 'the pool',
  readings: 'what was measured',
  'pool.name': 'the name of the pool',
  'pool.surface': 'the lining',
  'pool.heater': 'the heater',
  'pool.chlorination': 'the way of chlorinating',
  'pool.exposure': 'where the pool lies',
  'pool.cover': 'the cover',
  'pool.pump.hoursPerDay': 'the hours of the pump a day',
  'pool.cell.amperes': 'the current of the cell',
  'pool.cell.gaps': 'the number of gaps',
  shelf: 'the list of products',
  'shelf.product': 'the product',
  'shelf.strength': 'the strength',
  'shelf.basis': 'what the strength counts',
  'shelf.ageMonths': 'the age in months',
  'shelf.storedAtC': 'where it is stored',
  'shelf.price': 'the price',
  chlorineUse: 'the chlorine use',
};

/** Fields that answer a question: their sentence begins with "say". */
const QUESTIONS: Readonly<Record<string, string>> = {
  'pool.stabilised': 'whether the pool is kept with stabilizer',
  'pool.kind': 'whether it is a pool or a spa',
  'chlorineLoss.night': 'whether it was night',
};

/** What JSON calls them is for those who write it. */
const KINDS: Readonly<Record<string, string>> = {
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
  string: 'text',
};

const QUANTITY_PLACES = ['readings', 'fill', 'chlorineLoss'];

function quantityIn(path: PlanIssue['path']): QuantityId | null {
  if (path[0] === 'chlorineLoss') return path[1] === 'before' || path[1] === 'after' ? 'free-chlorine' : null;
  if (!QUANTITY_PLACES.includes(String(path[0]))) return null;
  return QUANTITY_IDS.find((id) => id === path[1]) ?? null;
}

/** "total alkalinity", "pH", "the water temperature" */
function quantityPlace(id: QuantityId, units: UnitSystem): Place {
  const name = quantityName(id);
  const { unit } = QUANTITIES[id];
  if (unit === '°C') {
    return {
      name: `the ${name}`,
      show: inUnits(units, ' °C', ' °F', (value) => convertTemperature(value, 'C', 'F')),
    };
  }
  return {
    name,
    show: (value, figures = TYPED) => numberText(value, { figures }) + (unit === 'pH' ? '' : ` ${unit}`),
  };
}

/** A sentence without its capital and its full stop. */
export function planIssueText(issue: PlanIssue, units: UnitSystem): string {
  switch (issue.code) {
    case 'total-below-free':
      return `total chlorine (${numberText(issue.total)} mg/L) can’t be less than free chlorine (${numberText(issue.free)} mg/L): test both again`;
    case 'calcium-above-total':
      return `calcium hardness (${numberText(issue.calcium)} mg/L) can’t be more than total hardness (${numberText(issue.total)} mg/L): test both again`;
    case 'alkalinity-too-low-for-ph': {
      const { ph, alkalinity, cyanuricAcid } = issue;
      const stabilizer = cyanuricAcid > 0 ? ` and ${numberText(cyanuricAcid)} mg/L of stabilizer` : '';
      return `no water has pH ${numberText(ph)} with a total alkalinity of ${numberText(alkalinity)} mg/L${stabilizer}: test both again`;
    }
    case 'ph-too-low-for-alkalinity':
      return `pH ${numberText(issue.ph)} with a total alkalinity of ${numberText(issue.alkalinity)} mg/L would be fizzing like soda water: test both again`;
    case 'too-concentrated':
      return 'these readings lie beyond what can be worked out here: test them again';
    default:
      return inputText(issue, issue.path, units);
  }
}

function inputText(fault: InputFault, path: PlanIssue['path'], units: UnitSystem): string {
  const quantity = quantityIn(path);
  const key = path.filter((part) => typeof part === 'string').join('.');
  const { name, show } =
    path[0] === 'targets' ? target(path, units) : quantity ? quantityPlace(quantity, units) : fieldPlace(key, units);
  switch (fault.code) {
    case 'missing':
      return key in QUESTIONS ? `say ${name}` : `${name} is missing`;
    case 'not-a-number':
      return `${name} must be a number`;
    case 'not-rising':
      return `${name} must rise from its lower end over its aim to its upper end`;
    case 'wrong-kind':
      if (key in QUESTIONS) return `say ${name}: true or false`;
      return `${name} must be ${KINDS[fault.expected] ?? 'given in another way'}`;
    case 'too-long':
      return key === 'shelf'
        ? `${name} holds at most ${fault.limit}`
        : `${name} can’t be longer than ${fault.limit} letters`;
    case 'not-one-of':
      return `${name} must be ${listText(fault.options, 'or')}`;
    case 'not-known':
      return `this isn’t known here: ${listText(fault.keys.slice(0, 8).map((key) => cleanText(key, 60)))}`;
    case 'span-without-value':
      return `the span from ${show(fault.low)} to ${show(fault.high)} must hold the value ${show(fault.value)}`;
    case 'no-such-strength':
      return `${productName(fault.product)} can’t have a strength of ${numberText(fault.given)} %: it must be more than 0 and at most ${numberText(fault.limit)} %`;
    case 'too-low':
    case 'too-high':
      if (quantity) return boundsText(quantity, fault.given, units);
      if (fault.code === 'too-high')
        return `${name} can’t be ${show(fault.given)}: ${show(fault.limit, LIMIT)} is the most`;
      return `${name} can’t be ${show(fault.given)}: it must be ${fault.isOpen ? 'more than' : 'at least'} ${show(fault.limit, LIMIT)}`;
  }
}

function target(path: PlanIssue['path'], units: UnitSystem): Place {
  const quantity = QUANTITY_IDS.find((id) => id === path[1]);
  const { show } = quantity
    ? quantityPlace(quantity, units)
    : { show: (value: number, figures = TYPED) => numberText(value, { figures }) };
  return { name: 'a target here', show };
}

/** The usual slip with temperatures is the other scale, so it is named. */
function boundsText(id: QuantityId, given: number, units: UnitSystem): string {
  const { min, max } = QUANTITIES[id];
  const { name, show } = quantityPlace(id, units);
  if (id === 'temperature') {
    const typed = convertTemperature(given, 'C', 'F');
    const meant = convertTemperature(given, 'F', 'C');
    const whole = Math.round(meant);
    const isSlip = units === 'us' ? given < min && typed >= min && typed <= max : given > max && whole <= max;
    if (isSlip) return slipText(given, units);
  }
  return `${name} can’t be ${show(given)}: it must lie between ${show(min, LIMIT)} and ${show(max, LIMIT)}`;
}

function slipText(given: number, units: UnitSystem): string {
  const whole = (value: number) => numberText(Math.round(value));
  if (units === 'us') {
    const typed = convertTemperature(given, 'C', 'F');
    return `${numberText(typed)} °F can’t be a pool: ${numberText(typed)} °C would be ${whole(convertTemperature(typed, 'C', 'F'))} °F, was it in Celsius?`;
  }
  return `${numberText(given)} °C can’t be a pool: ${numberText(given)} °F would be ${whole(convertTemperature(given, 'F', 'C'))} °C, was it in Fahrenheit?`;
}

/** "readings, ph, value"; lists count from one. */
export function planIssuePlace({ path }: PlanIssue): string {
  return path.map((part) => (typeof part === 'number' ? String(part + 1) : part)).join(', ');
}
