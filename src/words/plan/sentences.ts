/** The sentences for every code of the plan. */
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { ApartReason, StepNote } from '../../core/water/plan/step.ts';
import type {
  Finding,
  HoldReason,
  HoldRemedy,
  NothingNeeded,
  OutsideReason,
  RetestReason,
  Verdict,
  VerdictReason,
} from '../../core/water/plan/types.ts';
import { quantityInPlan } from '../quantities.ts';
import { judgementText } from '../reading.ts';

const SWIM: Record<Verdict['swim'], string> = {
  'stay-out': 'Stay out of the water for now.',
  'correct-first': 'Put the water right first, then test it, then swim.',
  'cannot-say': 'What was measured can’t tell whether the water is fit to swim in.',
  'with-care': 'No reading reaches a limit that closes a pool, but mind this.',
  'no-objection': 'Nothing that was measured speaks against swimming.',
};

/** Follows what is said about swimming, whatever that is, while nobody has looked. */
export const IF_BOTTOM_VISIBLE = 'Nobody swims unless the deepest part of the floor can be seen clearly.';

export function swimText(swim: Verdict['swim']): string {
  return SWIM[swim];
}

const VERDICT: Record<VerdictReason, string> = {
  'bottom-not-visible': 'The bottom can’t be seen clearly: someone in trouble would not be noticed.',
  'green-water': 'The water is green: algae are using up the chlorine.',
  'cloudy-water': 'The water is cloudy.',
  'chlorine-too-low': 'There is too little free chlorine to keep germs down.',
  'chlorine-above-limit': 'There is more than 10 mg/L of free chlorine.',
  'ph-too-low': 'The pH is below 7.0: it stings and eats metal.',
  'ph-too-high': 'The pH is above 8.0: it stings, and chlorine hardly works.',
  'combined-too-high': 'There is too much combined chlorine: it irritates eyes and lungs.',
  'combined-above-target': 'There is more combined chlorine than there should be: it irritates eyes and lungs.',
  'too-hot': 'The water is hotter than 40 °C (104 °F).',
  'maybe-too-hot': 'The water may be hotter than 40 °C (104 °F).',
  'cold-water':
    'The water is below 15 °C (59 °F): its cold can take the breath, the strength and the heart. It drowns good swimmers within minutes.',
  'chlorine-maybe-low': 'The free chlorine may be too low.',
  'chlorine-maybe-above-limit': 'The free chlorine may be above 10 mg/L.',
  'chlorine-above-label':
    'The free chlorine is, or may be, above what many labels allow for swimming, often 4 mg/L: your label decides.',
  'chlorine-low-for-stabilizer': 'The free chlorine is low for so much stabilizer.',
  'chlorine-maybe-low-for-stabilizer': 'The free chlorine may be low for the stabilizer that there may be.',
  'stabilizer-not-measured': 'Stabilizer was not measured: how much chlorine is enough depends on it.',
  'ph-outside-code': 'The pH is above the 7.8 that codes allow.',
  'ph-maybe-above-code': 'The pH may lie above the 7.8 that codes allow.',
  'ph-maybe-outside': 'The pH may lie outside 7.0 to 8.0.',
  'combined-maybe-high': 'The combined chlorine may be too high.',
  'chlorine-not-measured': 'Free chlorine was not measured.',
  'ph-not-measured': 'pH was not measured.',
};

export function verdictText(reason: VerdictReason): string {
  return VERDICT[reason];
}

/** What a verdict leaves open. */
export function notMeasuredText(readings: readonly QuantityId[]): string {
  const never = 'Germs, metals and much else are never measured by a strip.';
  return readings.length === 0 ? never : `Not measured: ${readings.map(quantityInPlan).join(', ')}. ${never}`;
}

/** In the words of the reading sheet: "low", "perhaps low", "likely in range". */
export function findingText(finding: Finding): string {
  const word = findingWord(finding);
  return word ? judgementText({ word, otherWord: null, isSure: finding.judgement === word }) : 'not measured';
}

/** By the value itself; null for what was not measured. */
export function findingWord({ known, against, judgement }: Finding): 'low' | 'in-range' | 'high' | null {
  switch (judgement) {
    case 'low':
    case 'in-range':
    case 'high':
      return judgement;
    default:
      if (judgement === 'unknown' || !known) return null;
      return known.value < against.low ? 'low' : known.value > against.high ? 'high' : 'in-range';
  }
}

const NOTES: Record<StepNote, string> = {
  'remove-debris': 'Take out leaves and dirt.',
  'brush-and-vacuum': 'Brush walls and floor, then vacuum.',
  'filter-round-the-clock': 'Run pump and filter round the clock until the water is clear.',
  'clean-filter-when-pressure-rises': 'Backwash or clean the filter whenever its pressure rises.',
  'hold-until-clear':
    'Test every few hours and bring it back up until the water is clear and loses no more than 1 mg/L overnight. Common practice, no source.',
  'chlorine-above-swim-limit-for-now': 'This is above the limit for swimming: nobody goes in until it has fallen.',
  'for-the-stabilizer-to-come': 'That is more than today needs: it counts on the stabilizer that is still to dissolve.',
  'dilution-helps':
    'The more stabilizer, the more chlorine it takes: replacing part of the water first, a third at most at a time, makes this shorter and cheaper.',
  'as-much-as-the-ph-bears':
    'Liquid chlorine lifts the pH until it is used up, so this round stops short of the aim. Test pH and chlorine, bring the pH back down, and go on in further rounds.',
  'oxidise-common-practice':
    'Ten times the combined chlorine is common practice, no source; by chemistry alone it would take far less. Sun and fresh water help too.',
  'oxidise-capped': 'Ten times would be more than the 10 mg/L that nobody may swim above, so it stops there.',
  'repeat-until-it-holds':
    'Test in the evening and before sunrise, and repeat until the free chlorine falls by no more than 1 mg/L overnight. Then stabilizer may follow.',
  'chlorinator-off-until-salt-dissolved': 'Leave the chlorinator off until all of it has dissolved, about a day.',
  'chlorinator-off-until-chlorine-falls': 'Switch the chlorinator off meanwhile.',
  'sun-takes-chlorine': 'Take the cover off: sunlight uses chlorine up. Add nothing that holds chlorine.',
  'thiosulfate-least-by-stoichiometry':
    'Worked out for the reaction that takes the least (all the way to sulfate), so that not too much chlorine goes. Wait an hour and test.',
  'points-returns-up-or-fountain':
    'Point the returns up, run a fountain or a waterfall: bubbles and splash carry carbon dioxide off.',
  'slow-hours-to-days': 'This takes hours to days. Test the pH twice a day and stop when it is there.',
  'alkalinity-follows-over-several-rounds':
    'Acid lowers pH and alkalinity, air brings back only the pH: over several rounds the alkalinity comes down.',
  'clouding-clears': 'If the water clouds, let it filter: it clears within hours.',
  'stabilizer-takes-days-to-show':
    'It takes days to dissolve and to show in a test. Add no more before a week is over.',
  'stabilizer-lowers-ph':
    'It is an acid itself: as it dissolves it takes the pH down, by less than stated here where the water gets air.',
  'stabilizer-instead-of-acid': 'So the high pH needs no other acid now.',
  'if-the-test-agrees': 'Test the pH first, and do this only as far as the test agrees.',
  'no-backwash-while-it-dissolves': 'Don’t clean or backwash the filter while it dissolves.',
  'never-empty-part-at-a-time': 'Let out a part, fill up, let it mix; never empty the pool.',
  'pump-off-below-the-skimmer':
    'Pump, heater and chlorinator off before the level falls below the skimmer, and until it is full again.',
  'optional-without-plaster':
    'Optional: a liner or gel coat has no calcium to lose. It spares grout, metal and the heater.',
  'retest-before-going-on':
    'Test everything again before the next step: the amounts below count on the fill water being as stated.',
  'ph-for-the-index': 'The pH steered for is set by the saturation index.',
  'unstabilised-chlorine-from-now-on':
    'The stabilizer came with trichlor or dichlor: use liquid chlorine from now on, or it will be back.',
  'look-at-the-cell':
    'Look through the cell with the power off: white crust between the plates means that it needs washing (see the chlorinator’s care).',
  'look-at-the-heater': 'A heater that hums, or warms less than it did, may be scaled inside.',
  'look-at-the-waterline':
    'A rough white line at the water’s edge says the same. Keep the pH at the low end of its range meanwhile.',
  'dilution-offered':
    'Softer fill water would bring it down for good, a third of the pool at most at a time: worth it where scale keeps coming back.',
  'adds-stabilizer': 'This product adds stabilizer as well.',
  'adds-calcium': 'This product adds calcium as well.',
};

export function noteText(note: StepNote): string {
  return NOTES[note];
}

const APART: Record<ApartReason, string> = {
  'acid-and-chlorine': 'so that acid and chlorine never meet',
  'calcium-and-carbonate': 'so that calcium and soda do not cloud the water',
  'mix-first': 'until the fresh water has mixed in',
  'dissolve-first': 'until the stabilizer has dissolved',
  'let-work': 'with the pump running',
};

export function apartText(reason: ApartReason): string {
  return APART[reason];
}

const HOLDS: Record<HoldReason, string> = {
  straddles: 'It may be in range or not: too uncertain to dose for.',
  'not-measured': 'It was not measured, and nothing is dosed on a guess.',
  'strip-unreliable-at-high-chlorine': 'So much chlorine bleaches the pads: this reading can’t be trusted.',
  'off-scale': 'It lies beyond the end of the scale: how far is not known.',
  'after-dilution': 'The fill water is not fully known: test once it has mixed in, then plan again.',
  'maybe-bleached': 'Pads that stay pale beside a chlorine of 0 may have been bleached by very much chlorine.',
  'index-first': 'It would make the water scale before what else is out can be put right.',
  'after-the-fight': 'It comes once the chlorine holds overnight: until then the chlorine must work unhindered.',
  'too-little-to-tell': 'What it would take is too little for a test to tell the difference.',
};

export function holdText(reason: HoldReason): string {
  return HOLDS[reason];
}

const REMEDIES: Record<HoldRemedy, string> = {
  'repeat-test': 'Test it again.',
  'better-test': 'Use a better test: a drop kit, a meter or a shop.',
  measure: 'Measure it.',
  'wait-for-chlorine': 'Let the chlorine fall below 10 mg/L, then test again.',
  'dilute-sample':
    'Mix the sample with the same amount of distilled water, test again and double the result. That works for chlorine, alkalinity, hardness, stabilizer and salt, never for pH.',
  'bleach-check':
    'Before any dose, mix one part of pool water with nine parts of distilled water and dip a new strip: if its chlorine pad colours now, there is far too much chlorine, about ten times what it shows.',
  'once-chlorine-holds': 'Plan again when the chlorine falls by no more than 1 mg/L overnight.',
  'plan-again': 'Put the rest right, test, and plan again.',
};

export function remedyText(remedy: HoldRemedy): string {
  return REMEDIES[remedy];
}

const RETESTS: Record<RetestReason, string> = {
  held: 'before anything is dosed for it',
  'after-dose': 'once it has mixed in',
  'after-dilution': 'once the fresh water has mixed in',
  'once-fallen': 'to see how far the chlorine has fallen',
  'slow-to-show': 'because it takes that long to show',
  'before-swimming': 'before anyone swims',
  'may-leave': 'because all readings together say that it may have left its span by then',
  routine: 'as a routine',
};

export function retestText(reason: RetestReason): string {
  return RETESTS[reason];
}

const OUTSIDE: Record<OutsideReason, string> = {
  'held-for-retest': 'nothing is dosed for it before the new test',
  'not-measured': 'it was not measured',
  'dosed-for-cautious-end': 'the dose is for the cautious end of the reading; the new test shows what is left to do',
  'goes-on-after-retest': 'it takes more rounds; go on from a new test',
  'leaves-only-with-water': 'it leaves only with the water, and there is not enough too much to replace any',
  'falls-by-itself': 'it falls by itself',
  'raised-on-purpose': 'it is raised on purpose and falls again',
  'comes-down-with-acid': 'it comes down with the acid that the pH will need anyway',
  'moved-by-another-step': 'another step moves it; test it again when all is done',
  'kept-low-for-the-index': 'higher, the water would scale; alkalinity and calcium have to come down first',
  'lifted-by-chlorine': 'the chlorine lifts it and lets it fall again as it is used up',
  'comes-with-the-chlorine': 'the chlorine product brings it',
  'kept-by-ph-instead': 'it leaves only with the water; keeping the pH down keeps it from scaling',
  'calcium-or-alkalinity-first': 'calcium and alkalinity come first',
  'no-level-fits-the-stabilizer': 'with so much stabilizer no allowed chlorine level is enough',
  'too-little-to-measure': 'what is missing is too little to measure out',
};

export function outsideText(reason: OutsideReason): string {
  return OUTSIDE[reason];
}

const NOTHING: Record<NothingNeeded, string> = {
  'all-in-range':
    'Nothing needs adding: as far as the tests can tell, everything that was measured lies where it should.',
  'out-but-not-to-be-dosed': 'Nothing needs adding: what lies outside its target is not put right by adding anything.',
  'only-holds': 'Nothing is added now: what may be out of range is too uncertain to dose for.',
};

export function nothingText(code: NothingNeeded): string {
  return NOTHING[code];
}
