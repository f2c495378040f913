/** Filter, cell, heater. */
import type { Figures } from '../../../core/water/routines/item.ts';
import type { Show } from '../routines.ts';

/** A sentence, or one made of the item's figures. */
export type Written = string | ((figures: Figures, show: Show) => string);

export const CARE: Readonly<Record<string, Written>> = {
  'gauge-unknown':
    'Write down what the gauge shows just after cleaning: that is “clean”. A quarter above it, it is time.',
  'gauge-clean-known': ({ clean, at }, show) =>
    `Clean is ${show.pressure(clean!)}: at ${show.pressure(at!)}, a quarter above, it is time.`,
  'gauge-clean-it': ({ clean, now }, show) =>
    `${show.pressure(now!)} against ${show.pressure(clean!)} clean: it is time.`,
  'gauge-wait': ({ now, at }, show) =>
    `${show.pressure(now!)}: not yet. Wait for ${show.pressure(at!)}; a filter with a little dirt in it holds back more.`,
  'gauge-starved': ({ clean, now }, show) =>
    `${show.pressure(now!)} is below the ${show.pressure(clean!)} of a clean filter: too little water comes in. Look at level, baskets and valves first.`,
  'cell-and-heater-off': 'Cell and heater off.',
  'pump-off': 'Pump off, and kept off: never turn the valve or open the filter while it runs.',
  'hose-out': 'Lay the hose to where the water may go: local rules, not the neighbours or a stream.',
  'valve-backwash': ({ minutes }, show) =>
    `Valve to backwash. Pump on until the glass runs clear, two to ${show.plain(minutes!)} minutes. Pump off.`,
  'valve-rinse': 'Valve to rinse. Pump on for half a minute. Pump off.',
  'valve-filter': 'Valve to filter. Pump on; stand clear of the filter as it starts.',
  'air-valve-open': 'Air valve open, gauge at zero. Only then the lid.',
  'rinse-cartridge': 'Rinse the folds from the top down with a hose, not with a pressure washer.',
  'lid-on': 'Lid on exactly as its book says. Pump on with the air valve open until water comes, and stand clear.',
  'write-clean-pressure': 'Read the gauge: the new “clean”. Keep it in the form.',
  'top-up': ({ litres, saltGrams }, show) =>
    litres === undefined || saltGrams === undefined
      ? 'Top up to the middle of the skimmer. Give the flow of your pump, and what it cost in water and salt stands here.'
      : `Top up to the middle of the skimmer: it cost about ${show.litres(litres)} and ${show.kilograms(saltGrams)} of salt.`,
  'cell-and-heater-on': 'Cell and heater on again.',
  'look-monthly': ({ sooner }) =>
    sooner === undefined
      ? 'Once a month in season.'
      : 'Now, and every two weeks: this water leaves scale. Bring its index down, or the crust comes back.',
  'cell-power-off': 'Pump off, chlorinator off, and its power off at the isolator. Valves closed.',
  'cell-out': 'Cell out, cable end dry. Rinse it until there is no smell of chlorine.',
  'what-it-shows':
    'Look through it against the light. White crust is lime; bare or flaked plates are worn out; leaves and hair rinse out.',
  'water-first': 'Water first: a hose, and a wooden or plastic stick. No metal.',
  'acid-last': 'Acid only where lime stays: each wash takes some of the plates’ coating.',
  'acid-steps':
    'Outdoors, goggles and gloves, wind at your back. The acid and strength that the unit’s book names; acid into water, in a plastic bucket, never water into acid. In it as long as the book says, and no longer than it fizzes.',
  'acid-rinse': 'Rinse well. What is left of the acid goes where its label says, never into the pool.',
  'cell-back': 'Cell in, valves open, pump on first, then the power. Look for leaks.',
  'flow-switch':
    'Once a year: with the pump off the unit must say that there is no flow. Its power comes through the pump’s timer; an electrician sees to that.',
  hydrogen: ({ litresPerHour }, show) =>
    `The cell makes hydrogen with the chlorine${litresPerHour === undefined ? '' : `, about ${show.plain(litresPerHour)} L an hour at full output`}: flowing water carries it out, in a still pipe it collects and can burn. Never run it without flow.`,
  'warm-unknown': ({ perDegree }, show) =>
    `${show.perDegree(perDegree!)} of heat here. Give temperature, target and the heater’s kW (of a solar collector its area), and the hours stand here.`,
  'warm-needs': ({ from, to, kWh, hours }, show) =>
    `From ${show.degrees(from!)} to ${show.degrees(to!)} takes ${show.plain(kWh!)} kWh of heat${hours === undefined ? '' : `: ${show.hours(hours)} of heater and pump`}, and more for what is lost meanwhile.`,
  'warm-days': ({ days, sunHours }, show) =>
    `At ${show.plain(sunHours!)} hours of good sun a day, about ${show.plain(Math.max(1, days!))} days.`,
  'power-measured': ({ flow, rise, kilowatts }, show) =>
    `${show.litres(flow!)} an hour that come back ${show.rise(rise!)} warmer take up ${show.plain(kilowatts!)} kW.`,
  'power-by-sun': ({ area, kilowatts }, show) =>
    `${show.area(area!)} of collector in good sun give about ${show.plain(kilowatts!)} kW. Measure how much warmer the water comes back, and it stands here for yours.`,
  'rise-expected': ({ flow, rise }, show) =>
    `If all ${show.litres(flow!)} an hour go through it, they should come back about ${show.rise(rise!)} warmer. Much less: not all goes through, or it gives less. Much more: too little flow.`,
  'collector-slow': ({ rise }, show) =>
    `More than ${show.rise(rise!)} warmer: let more water through. A cooler collector loses less to the air.`,
  'collector-day': ({ sunHours, rise }, show) =>
    `${show.hours(sunHours!)} of good sun warm the pool by about ${show.rise(rise!)}; the night takes part of it.`,
  'collector-hours': ({ timer, sunHours }, show) =>
    `Run the pump through the collector only while the sun is on it: by night it cools the pool.${timer === undefined ? '' : ` Of the ${show.plain(timer)} hours on the timer, put ${show.plain(sunHours!)} there.`}`,
  'heater-flow': 'A heater needs the flow that its plate names, pump on first: a dirty filter starves it.',
  'copper-ph':
    'Copper inside: acid water eats it, stains the pool and turns fair hair green. Keep the pH at 7.2 or more and never put acid or tablets before it.',
  'copper-no-tablets': 'Tablets in the skimmer send acid water through the copper: a floating feeder instead.',
  'metal-and-salt': 'In salt water ask whether its metal is made for it: titanium is, much steel isn’t.',
  'collector-drain':
    'Let the collector run empty where it can freeze, and never close both its ends in the sun: trapped water boils.',
  'cover-saves':
    'A cover saves more heat than any heater makes: most is lost by evaporation. Never a swimmer under it.',
  'warm-uses-chlorine': 'Warmer water uses more chlorine: see the setting for the season, and test more often.',
  'heater-stops-first': 'Heater off first, pump off some minutes later, so that its heat is carried away.',
};
