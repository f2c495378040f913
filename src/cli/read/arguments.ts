/** What the command `read` is asked for. */
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import type { StripScale } from '../../core/scale/schema.ts';
import { called, EXIT } from '../output.ts';
import { loadScale, practiceScaleIds } from '../scales.ts';

const FORMATS = ['json', 'csv'] as const;
const MAX_JOBS = 64;

export interface ReadArguments {
  readonly scale: StripScale;
  /** Which of several cards, from 0; null where nobody said. */
  readonly which: number | null;
  /** Null where nobody said. */
  readonly secondsSinceDip: number | null;
  /** All photos show the same strip. */
  readonly isTogether: boolean;
  readonly format: (typeof FORMATS)[number];
  /** Null where no report is asked for. */
  readonly reportFolder: string | null;
  /** How many photos are read at a time, at most. */
  readonly jobs: number;
  /** Photos, folders and patterns, as they were given. */
  readonly named: readonly string[];
}

function usage(): string {
  return `Usage: ${called('read')} [OPTIONS] PHOTO...
A PHOTO is a file, a folder (all photos in it and in the folders below) or a pattern ('pool/**/*.jpg').
--scale FILE_OR_ID      the scale of the strip; practice scales: ${practiceScaleIds().join(', ')}
--card N                chooses among several cards in a photo, 1 from the left or the top
--seconds-since-dip N   how long after the dip the photos were taken
--together              all photos show the same strip: a last line has what they tell together
--format json|csv       one JSON object a line, or a table with a row for every value
--report FOLDER         also writes readings.html there: every card with its values, to look at and to print
--jobs N                photos that are read at a time; otherwise as many as there are processors
Ends with 0 when every photo was read, 1 when some were refused or missing, 2 when it was asked wrongly.`;
}

/** Ends the process where it was asked wrongly, or for help. */
export async function readArguments(): Promise<ReadArguments> {
  try {
    const text = { type: 'string' } as const;
    const yes = { type: 'boolean' } as const;
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        scale: text,
        card: text,
        'seconds-since-dip': text,
        together: yes,
        format: text,
        report: text,
        jobs: text,
        help: { ...yes, short: 'h' },
      },
    });
    if (values.help) {
      console.log(usage());
      process.exit(EXIT.done);
    }
    if (positionals.length === 0) throw new Error('name at least one photo');
    return {
      scale: await loadScale(values.scale ?? practiceScaleIds()[0]!),
      which: values.card === undefined ? null : cardNumber(values.card) - 1,
      secondsSinceDip: parseSeconds(values['seconds-since-dip']),
      isTogether: values.together ?? false,
      format: formatOf(values.format ?? 'json'),
      reportFolder: values.report ?? null,
      jobs: values.jobs === undefined ? Math.min(MAX_JOBS, availableParallelism()) : jobsOf(values.jobs),
      named: positionals,
    };
  } catch (error) {
    console.error(`${(error as Error).message}\n${usage()}`);
    process.exit(EXIT.wrongUse);
  }
}

function cardNumber(text: string): number {
  if (/^[1-9]\d?$/.test(text)) return Number(text);
  throw new Error(`--card takes the number of a card in the photo, 1 or more, not '${text}'`);
}

function parseSeconds(text: string | undefined): number | null {
  if (text === undefined) return null;
  const seconds = Number(text);
  if (text.trim() !== '' && seconds >= 0 && seconds <= 86_400) return seconds;
  throw new Error('--seconds-since-dip takes the seconds from the end of the dip to the photo, 0 to 86400');
}

function formatOf(text: string): ReadArguments['format'] {
  const format = FORMATS.find((one) => one === text);
  if (format) return format;
  throw new Error(`--format takes ${FORMATS.join(' or ')}, not '${text}'`);
}

function jobsOf(text: string): number {
  const jobs = /^\d{1,3}$/.test(text) ? Number(text) : 0;
  if (jobs >= 1 && jobs <= MAX_JOBS) return jobs;
  throw new Error(`--jobs takes how many photos are read at a time, 1 to ${MAX_JOBS}, not '${text}'`);
}
