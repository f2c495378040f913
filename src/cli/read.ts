// `npm run --silent read -- PHOTO...`: photos, folders of them and patterns; one JSON object a line, or a table.
import { readTogether } from '../core/reading/several.ts';
import type { ReadOutcome } from '../core/reading/reading.ts';
import { EXIT, print } from './output.ts';
import { readArguments } from './read/arguments.ts';
import { crewOf } from './read/crew.ts';
import { inOrder } from './read/in-order.ts';
import { photosNamed } from './read/photos-named.ts';
import { Progress } from './read/progress.ts';
import { ReadingsReport } from './read/report.ts';
import { TABLE_HEAD, tableRows } from './read/table.ts';
import { answerLine, togetherLine } from './read/lines.ts';
import { writeCsv } from '../core/log/csv.ts';

const { scale, which, secondsSinceDip, isTogether, format, reportFolder, jobs, named } = await readArguments();
const report = reportFolder === null ? null : await ReadingsReport.begin(reportFolder, scale);
const photos = await photosNamed(named);
const crew = await crewOf(jobs, photos.length, { scale, which, secondsSinceDip, withCard: report !== null });
const progress = new Progress(process.stderr, photos.length);
const readings: ReadOutcome[] = [];

let isHeard = format === 'json' || (await printRows([TABLE_HEAD]));
let done = 0;
for await (const answer of inOrder(photos, crew.ahead, (path) => crew.ask(path))) {
  if (!isHeard) break;
  done += 1;
  const { reading } = answer;
  if (reading.outcome !== 'read') process.exitCode = EXIT.partly;
  else if (isTogether) readings.push(reading);
  await report?.add(answer);
  progress.clear();
  isHeard = await (format === 'csv' ? printRows(tableRows(answer)) : print(JSON.stringify(answerLine(answer))));
  progress.tell(done, reading.outcome);
}
progress.clear();
// Where the program that reads the answers has ended, the remaining photos are left out.
if (done < photos.length) process.exitCode = EXIT.partly;
if (isHeard && readings.length > 0) {
  const together = readTogether(readings, scale);
  await (format === 'csv'
    ? printRows(tableRows({ path: '', reading: together, reasons: [] }))
    : print(JSON.stringify(togetherLine(together, readings.length))));
}
await report?.end();
await crew.end();

async function printRows(rows: readonly (readonly string[])[]): Promise<boolean> {
  // `print` ends the last one.
  return print(writeCsv(rows).replace(/\n$/, ''));
}
