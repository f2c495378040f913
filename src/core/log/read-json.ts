/** Reads the logbook's JSON file, of this and every older data version. */
import * as z from 'zod/mini';
import { parseScale, type StripScale } from '../scale/schema.ts';
import { type Choice, choiceSchema } from './choices.ts';
import { type FilePicture, type FileProblem, numbered, type ReadFile, sift } from './incoming.ts';
import { migrate } from './migrate.ts';
import { type Entry, entrySchema, poolSchema } from './schema.ts';
import { LOG_FORMAT } from './write-json.ts';

const envelopeSchema = z.object({
  format: z.literal(LOG_FORMAT),
  version: z.unknown(),
  pools: z._default(z.array(z.unknown()), []),
  entries: z._default(z.array(z.unknown()), []),
  scales: z._default(z.array(z.unknown()), []),
  pictures: z._default(z.array(z.unknown()), []),
  choices: z._default(z.array(z.unknown()), []),
});

/** About 6 MB of picture: no flattened card comes near it. */
const LONGEST_BASE64 = 8_000_000;

const pictureSchema = z.object({
  id: z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9-]{3,63}$/)),
  type: z.literal('image/jpeg'),
  base64: z.string().check(
    z.maxLength(LONGEST_BASE64),
    // The four-character groups are not matched one by one: a long text would exhaust the expression's stack.
    z.refine((text) => text.length % 4 === 0 && /^\/9j\/[A-Za-z0-9+/]*={0,2}$/.test(text), {
      params: { code: 'not-a-jpeg' },
    }),
  ),
});

export function readLogJson(text: string): ReadFile {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return { ok: false, failure: text.trim() === '' ? 'empty' : 'not-a-logbook' };
  }
  const envelope = envelopeSchema.safeParse(parsed);
  if (!envelope.success) return { ok: false, failure: 'not-a-logbook' };
  const migrated = migrate(envelope.data, envelope.data.version);
  if (!migrated.ok) return { ok: false, failure: migrated.newer ? 'newer-version' : 'other-version' };
  const pools = sift(poolSchema, migrated.log.pools, numbered('pool'));
  const entries = sift<Entry>(entrySchema, migrated.log.entries, numbered('entry'));
  const scales = siftScales(envelope.data.scales);
  const pictures = sift<FilePicture & { type: 'image/jpeg' }>(
    pictureSchema,
    envelope.data.pictures,
    numbered('picture'),
  );
  const choices = sift<Choice>(choiceSchema, envelope.data.choices, numbered('choice'));
  return {
    ok: true,
    incoming: {
      pools: pools.good,
      entries: entries.good,
      scales: scales.good,
      pictures: pictures.good.map(({ id, base64 }) => ({ id, base64 })),
      choices: choices.good,
    },
    problems: [pools, entries, scales, pictures, choices].flatMap(({ problems }) => problems),
  };
}

function siftScales(items: readonly unknown[]): { good: StripScale[]; problems: FileProblem[] } {
  const good: StripScale[] = [];
  const problems: FileProblem[] = [];
  items.forEach((item, i) => {
    const result = parseScale(item);
    if (result.ok) good.push(result.scale);
    else problems.push({ where: numbered('scale')(i), fault: result.issues[0]! });
  });
  return { good, problems };
}
