/** The cautions: one text and one provenance each. The label of the product overrules all of this. */
import { COMMON_PRACTICE, fromMemory, read, readElsewhere, type Provenance } from '../../core/provenance.ts';
import type { CautionCode } from '../../core/water/cautions.ts';

/** At a step, where the list itself is what is said. */
export const LABEL_FIRST = 'Label first.';

export interface Caution extends Provenance {
  readonly text: string;
}

const MARYLAND = 'Maryland Department of Health, page for pool operators';
const EPA_ALERT = 'US EPA alert 550-F-01-003 (March 2001), Safe Storage and Handling of Swimming Pool Chemicals';
const INJURIES = 'CDC analysis of US emergency visits 2008-2017, as summarised in public';
const MONTANA = 'Administrative Rules of Montana 37.115.1308';
const EPA_DISCHARGE = 'US EPA stormwater fact sheet on pool water';

const TEXTS: Record<CautionCode, readonly [string, Provenance]> = {
  // Handling
  label: ['Label first: it overrules what is said here.', COMMON_PRACTICE],
  'local-rules': [
    'Local rules come before this too: for letting water out, for storing products, and for any pool that others than your household use.',
    COMMON_PRACTICE,
  ],
  'into-water': ['Put the product into plenty of water. Never pour water onto the product.', read(MARYLAND)],
  'never-mix': ['Never mix pool products, not even remains in a bucket or scoop.', read(MARYLAND)],
  'acid-and-chlorine': [
    'Acid and chlorine products together give off chlorine gas. Keep them apart: in the shed, in the bucket and in the water.',
    read(MARYLAND),
  ],
  'stabilised-and-hypochlorite': [
    'Trichlor or dichlor and calcium hypochlorite can burn or explode when they meet. Never share a scoop, bucket or feeder.',
    read(
      'Fire Engineering, article on pool disinfectants; US EPA alert 550-F-01-003 lists both; shared scoops: from memory',
    ),
  ],
  'keep-dry': ['Keep dry chlorine dry: a little water on it can start a violent reaction.', read(EPA_ALERT)],
  protection: [
    'Wear goggles and gloves, and what else the label asks for.',
    read('Maryland Department of Health; CDC, MMWR 58(18), 2009, names missing protection as a cause of injury'),
  ],
  'open-outdoors': [
    'Open the container outdoors and keep your face away: fumes on opening are the commonest injury.',
    readElsewhere(INJURIES),
  ],
  'children-away': [
    'Keep children away while you work, and lock the products up afterwards: closed, cool, dry, liquids below solids, acid apart from chlorine.',
    readElsewhere('US EPA alert 550-F-01-003, in a public summary; partly from memory'),
  ],
  'poison-help': [
    'If someone has swallowed or breathed it, call your poison centre at once (US: 1-800-222-1222).',
    read('several public pages'),
  ],
  'one-at-a-time': ['One product at a time, with the pump running, spread around the pool.', COMMON_PRACTICE],
  'nobody-in-the-water': ['Nobody in the water while you add it.', read(MARYLAND)],
  'gives-heat': [
    'It gets hot as it dissolves: small portions into a bucket of cold water, never water onto it.',
    COMMON_PRACTICE,
  ],
  'sulfate-attacks': [
    'Its sulfate adds up in the water and attacks concrete, grout and metal, above all in a salt pool: hydrochloric acid leaves none.',
    COMMON_PRACTICE,
  ],
  'cold-water': [
    'Water below 15 °C (59 °F) can stop the breath and the heart and takes the strength to climb out.',
    readElsewhere('Royal National Lifeboat Institution, on cold water shock'),
  ],
  caustic: ['It burns skin and eyes.', COMMON_PRACTICE],
  'keep-off-liner': [
    'Grains lying on a liner or a coloured surface bleach or mark it: brush until they are gone.',
    COMMON_PRACTICE,
  ],
  'feed-stops-with-pump': [
    'Stop every feeder and the chlorinator whenever the pump stops: products that meet in a still pipe can gas swimmers when it starts again.',
    read('CDC, MMWR 2019, describes such a case at a public pool; mechanism from memory'),
  ],
  // When to stay out
  'wait-before-swimming': [
    'Let it circulate before anyone swims: going in straight after dosing is a known cause of injury. How long: the label says.',
    readElsewhere(INJURIES),
  ],
  'back-in-range-first': ['Nobody goes in until free chlorine and pH are back in range.', read(MARYLAND)],
  'label-chlorine-limit': [
    'Pool chlorine labels commonly keep swimmers out above about 4 mg/L of free chlorine.',
    fromMemory('US pesticide labels'),
  ],
  'chlorine-above-limit': [
    'Nobody swims above 10 mg/L of free chlorine.',
    readElsewhere('CDC Model Aquatic Health Code, trade report of January 2021'),
  ],
  'ph-stings': [
    'Below pH 7.0 or above 8.0, stay out until it is corrected.',
    read('CDC Model Aquatic Health Code 6.6.3.1 for above (cmahc.org section 2340); below: common practice'),
  ],
  'see-the-bottom': [
    'If the bottom is not clearly visible, nobody swims: someone in trouble would not be seen.',
    read(`${MONTANA}, clarity`),
  ],
  'sick-in-the-pool': [
    'After diarrhoea in the pool the usual chlorine is not enough, above all with stabilizer. Get local advice.',
    read('CDC Model Aquatic Health Code 6.5.3.2.1 (cmahc.org section 2316)'),
  ],
  'too-hot': ['Water above 40 °C (104 °F) is too hot for people.', read(MONTANA)],
  // Stabilizer
  'stabilizer-stays': [
    'Stabilizer stays: in season it leaves only with the water. Put in less rather than more.',
    read('CDC Model Aquatic Health Code, annex'),
  ],
  'stabilised-adds': [
    'Each mg/L of chlorine from trichlor adds 0.6 mg/L of stabilizer, from dichlor 0.9.',
    read('formula masses, see dose-facts.csv'),
  ],
  // Salt, metal, electricity
  'salt-attacks': [
    'Salt water attacks poorly chosen steel, soft stone and bare metal. Rinse what gets splashed.',
    read('table of technical advice beside DIN 19643 on chloride and steel, secondary'),
  ],
  electricity: [
    'Pool water and all metal must be bonded and the circuits protected by a residual-current device. That is work for an electrician.',
    fromMemory('US NEC article 680'),
  ],
  'hard-water': [
    'With so much calcium, scale grows in a heater and on the plates of a chlorinator: look at them every month, and replace part of the water where the fill water is softer.',
    COMMON_PRACTICE,
  ],
  'isolate-cell': [
    'Switch the chlorinator off and isolate its power before you open or clean the cell.',
    COMMON_PRACTICE,
  ],
  // Opening and closing, the filter
  'drown-cover': [
    'Water on a cover drowns children: pump it off, lock the gate, and nobody walks on the cover.',
    COMMON_PRACTICE,
  ],
  'drain-covers': [
    'Check that every drain cover is whole before the pump starts: an open drain holds a swimmer down.',
    COMMON_PRACTICE,
  ],
  'filter-under-pressure': [
    'Pump off before the valve turns or the filter is opened; air valve open and gauge at zero before the lid. A lid under pressure can kill.',
    read('a filter maker’s manual'),
  ],
  // Draining
  'discharge-permission': [
    'Chlorinated pool water must not go into the storm drain or a stream. Ask who runs the sewer, or let it soak into your own land without chlorine.',
    read(EPA_DISCHARGE),
  ],
  'discharge-salt': [
    'Salt-pool water harms plants and streams: ask before you let any out.',
    read('sanitation district pages, Kentucky and Texas'),
  ],
  'discharge-slowly': [
    'Let it out slowly, 12 to 15 US gallons (45 to 57 L) a minute, so that nothing washes away.',
    read('city page, Fayetteville, North Carolina'),
  ],
  'never-empty': [
    'Never empty a pool in the ground without knowing the ground-water level: an empty shell can float or buckle. Replace part at a time.',
    COMMON_PRACTICE,
  ],
  'discharge-downhill': [
    'On a slope, water let out runs to the neighbours, under foundations or loosens the hillside: lead it where local rules allow.',
    COMMON_PRACTICE,
  ],
  'liner-moves': [
    'A liner shrinks and slips, and a wall can move, once the water no longer holds it: never leave the level low.',
    COMMON_PRACTICE,
  ],
  // What a strip can't tell
  'strip-steps': ['A strip shows steps of colour: expect an error of about one block.', COMMON_PRACTICE],
  'strip-blind': [
    'A strip sees no germs, no metals, no phosphate, no temperature: a good reading is no proof of safe water.',
    COMMON_PRACTICE,
  ],
  'strip-bound-chlorine': [
    'Chlorine held by stabilizer reads as free chlorine.',
    read('Wahman & Alexander 2019, abstract'),
  ],
  'strip-combined-poor': [
    'Combined chlorine is total minus free: where the two are close, the difference means little.',
    COMMON_PRACTICE,
  ],
  'strip-total-hardness': [
    'A hardness pad usually reads calcium and magnesium together.',
    fromMemory('strip chemistry'),
  ],
  'strip-bleached': [
    'Very high chlorine can bleach the pads: chlorine then reads too low, and pH reads wrong.',
    fromMemory('strip chemistry'),
  ],
};

export function caution(code: CautionCode): Caution {
  const [text, provenance] = TEXTS[code];
  return { text, ...provenance };
}
