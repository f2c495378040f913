/** Everything there is, as one JSON file. */
import type { StripScale } from '../scale/schema.ts';
import type { Choice } from './choices.ts';
import type { FilePicture } from './incoming.ts';
import { LOG_VERSION, type LogData } from './schema.ts';

export const LOG_FORMAT = 'dipwise-logbook';

/**
 * In pieces, so that a logbook full of pictures never has to be one string.
 * @param about a sentence for whoever opens the file
 * @param pictures one at a time, as they are fetched
 */
export async function* writeLogJson(
  data: LogData & { readonly scales: readonly StripScale[]; readonly choices: readonly Choice[] },
  pictures: AsyncIterable<FilePicture> | Iterable<FilePicture>,
  made: string,
  about: string,
): AsyncGenerator<string> {
  const { pools, entries, scales, choices } = data;
  yield `{"format":"${LOG_FORMAT}","version":${LOG_VERSION},"made":${JSON.stringify(made)},`;
  yield `"about":${JSON.stringify(about)},\n"pools":${list(pools)},\n"entries":${list(entries)},\n`;
  yield `"scales":${list(scales)},\n"choices":${list(choices)},\n"pictures":[`;
  let first = true;
  for await (const { id, base64 } of pictures) {
    yield `${first ? '' : ','}\n${JSON.stringify({ id, type: 'image/jpeg', base64 })}`;
    first = false;
  }
  yield ']}\n';
}

function list(items: readonly unknown[]): string {
  return items.length === 0 ? '[]' : `[\n${items.map((item) => JSON.stringify(item)).join(',\n')}]`;
}
