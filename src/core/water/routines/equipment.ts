/** Care of what stands beside the pool: filter, cell, heater. */
import { COLLECTOR_SHARE, heatNeeded, heatTakenUp, riseFrom, SUN_KW_PER_M2 } from '../../pool/heat.ts';
import type { PlanInput } from '../../pool/schema.ts';
import { likelyFlow } from '../../pool/turnover.ts';
import type { Plan } from '../plan/types.ts';
import { course, item, type Course, type RoutineItem } from './item.ts';

/** Share above the clean pressure at which a filter is cleaned. Common practice, no source. */
export const DIRTY_SHARE = 0.25;
/** Minutes of backwash and rinse. Common practice, no source. */
const BACKWASH_MINUTES = 3.5;
/** Share of the clean pressure below which too little water comes in. Common practice, no source. */
const STARVED_SHARE = 0.8;

export function backwash({ input: { pool }, now }: Plan): Course {
  const { filter, pump } = pool;
  const isCartridge = filter?.kind === 'cartridge';
  const { cleanBar: clean, nowBar } = filter ?? {};
  const flow = pump && likelyFlow(pump);
  const litres = flow === undefined ? undefined : (flow * BACKWASH_MINUTES) / 60;
  const cost = litres === undefined ? {} : { litres, saltGrams: (litres * now.water.salt) / 1000 };
  const gauge = gaugeItem(clean, nowBar);
  const isSalt = pool.chlorination === 'chlorinator';
  return course(
    [
      gauge,
      item('cell-and-heater-off'),
      item('pump-off'),
      ...(isCartridge
        ? [item('air-valve-open'), item('rinse-cartridge'), item('lid-on')]
        : [
            item('hose-out'),
            item('valve-backwash', { minutes: 3 }),
            item('valve-rinse', { minutes: 0.5 }),
            item('valve-filter'),
          ]),
      item('write-clean-pressure'),
      !isCartridge && item('top-up', cost),
      item('cell-and-heater-on'),
    ],
    [
      'filter-under-pressure',
      ...(isCartridge ? [] : (['discharge-permission', 'discharge-downhill', isSalt && 'discharge-salt'] as const)),
    ],
  );
}

function gaugeItem(clean: number | undefined, now: number | undefined) {
  if (clean === undefined) return item('gauge-unknown');
  const at = clean * (1 + DIRTY_SHARE);
  if (now === undefined) return item('gauge-clean-known', { clean, at });
  if (now >= at) return item('gauge-clean-it', { clean, now, at });
  return now < clean * STARVED_SHARE ? item('gauge-starved', { clean, now }) : item('gauge-wait', { clean, now, at });
}

/** mL of hydrogen with each gram of chlorine, at 25 °C and 1 atm: 22.414 L/mol x 298.15/273.15 over 70.90 g/mol. */
const HYDROGEN_ML_PER_GRAM = (22_414 * (298.15 / 273.15)) / 70.9;

export function careOfCell({ input: { pool }, findings }: Plan): Course {
  const isHard = findings.some(({ target, judgement }) => target === 'calcium-hardness' && judgement === 'high');
  const scales = findings.some(({ target, judgement }) => target === 'saturation-index' && judgement === 'high');
  const cell = pool.cell;
  return course(
    [
      item('look-monthly', isHard || scales ? { sooner: 1 } : {}),
      item('cell-power-off'),
      item('cell-out'),
      item('what-it-shows'),
      item('water-first'),
      item('acid-last'),
      item('acid-steps'),
      item('acid-rinse'),
      item('cell-back'),
      item('flow-switch'),
      item('hydrogen', cell ? { litresPerHour: (cell.gramsPerHour * HYDROGEN_ML_PER_GRAM) / 1000 } : {}),
    ],
    [
      'isolate-cell',
      'into-water',
      'acid-and-chlorine',
      'protection',
      'open-outdoors',
      'feed-stops-with-pump',
      'electricity',
    ],
  );
}

/** Of a day a collector gets sun worth running for. Common practice, no source. */
const SUN_HOURS = 6;
/** °C: water that comes back so much warmer went through a collector too slowly. Common practice, no source. */
const MAX_RISE = 6;

export function warming({ input: { pool, readings }, now }: Plan): Course {
  const { heat, heater } = pool;
  const temperature = readings.temperature && now.water.temperatureC;
  const rise = heat?.targetC !== undefined && temperature !== undefined ? heat.targetC - temperature : undefined;
  const kWh = rise !== undefined && rise > 0 ? heatNeeded(pool.volumeLitres, rise) : undefined;
  const kilowatts = powerOf(pool);
  const hours = kWh !== undefined && kilowatts !== undefined ? kWh / kilowatts : undefined;
  const isCollector = heater === 'collector';
  return course(
    [
      kWh === undefined
        ? item('warm-unknown', { perDegree: heatNeeded(pool.volumeLitres, 1) })
        : item('warm-needs', { to: heat!.targetC!, from: temperature!, kWh, ...(hours !== undefined && { hours }) }),
      ...powerItems(pool, kilowatts),
      ...(isCollector ? collectorItems(pool, kilowatts, hours) : [item('heater-flow')]),
      heater === 'copper' && item('copper-ph'),
      heater === 'copper' && pool.chlorination === 'trichlor' && item('copper-no-tablets'),
      heater === 'other' && pool.chlorination === 'chlorinator' && item('metal-and-salt'),
      isCollector && item('collector-drain'),
      item('cover-saves'),
      item('warm-uses-chlorine'),
      item('heater-stops-first'),
    ],
    ['electricity', 'too-hot'],
  );
}

type Pool = PlanInput['pool'];

/** kW: as its flow and rise were measured, as it was told, or as the sun on a collector gives it. */
function powerOf({ heat, heater, pump }: Pool): number | undefined {
  if (heat?.riseC !== undefined && pump) return heatTakenUp(likelyFlow(pump), heat.riseC);
  if (heat?.kilowatts !== undefined) return heat.kilowatts;
  if (heater !== 'collector' || heat?.collectorM2 === undefined) return undefined;
  return heat.collectorM2 * SUN_KW_PER_M2 * COLLECTOR_SHARE;
}

/** Where the power comes from, and the rise to expect of it. */
function powerItems({ heat, heater, pump }: Pool, kilowatts: number | undefined): RoutineItem[] {
  if (kilowatts === undefined) return [];
  const flow = pump && likelyFlow(pump);
  if (flow !== undefined && heat?.riseC !== undefined) {
    const measured = item('power-measured', { kilowatts, flow, rise: heat.riseC });
    return heater === 'collector' && heat.riseC > MAX_RISE
      ? [measured, item('collector-slow', { rise: MAX_RISE })]
      : [measured];
  }
  const isBySun = heat?.kilowatts === undefined;
  return [
    ...(isBySun ? [item('power-by-sun', { kilowatts, area: heat!.collectorM2! })] : []),
    ...(flow === undefined ? [] : [item('rise-expected', { flow, rise: riseFrom(kilowatts, flow) })]),
  ];
}

/** The pump's hours in the sun, and what a day of them brings. */
function collectorItems(pool: Pool, kilowatts: number | undefined, hours: number | undefined): RoutineItem[] {
  const timer = pool.pump?.hoursPerDay;
  const sunHours = Math.min(SUN_HOURS, timer ?? SUN_HOURS);
  return [
    ...(kilowatts === undefined
      ? []
      : [item('collector-day', { sunHours, rise: riseFrom(kilowatts * sunHours, pool.volumeLitres) })]),
    ...(hours === undefined ? [] : [item('warm-days', { days: hours / sunHours, sunHours })]),
    item('collector-hours', timer === undefined ? {} : { timer, sunHours }),
  ];
}
