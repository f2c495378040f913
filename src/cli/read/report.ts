/**
 * `readings.html`: every photo with its card, values and intervals, on one page that needs no other file. It is written as
 * the answers come, so that its length costs no memory, and takes the place of an earlier one only when it is whole.
 */
import { createReadStream } from 'node:fs';
import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Entry } from '../../core/reading/entry.ts';
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { momentText } from '../../words/dates.ts';
import { REPORT, reportCountText } from '../../words/many.ts';
import { quantityTitle } from '../../words/quantities.ts';
import { warningMessage } from '../../words/reading.ts';
import { intervalText, spanText, unitText, valueText } from '../../words/sheet.ts';
import { makeFolder } from '../files.ts';
import { EXIT } from '../output.ts';
import { drawnCard } from './drawn-card.ts';
import { html, type Html, raw } from './html.ts';
import type { PhotoAnswer } from './reader.ts';
import { REPORT_STYLE } from './report-style.ts';

/** Where the photos go; no name can hold it, as names are escaped. */
const PHOTOS = '<!-- photos -->';

export class ReadingsReport {
  readonly #path: string;
  readonly #body: FileHandle;
  readonly #scale: StripScale;
  /** A row of the table for each photo. */
  readonly #rows: string[] = [];
  #read = 0;

  private constructor(path: string, body: FileHandle, scale: StripScale) {
    [this.#path, this.#body, this.#scale] = [path, body, scale];
  }

  /** Ends the process where nothing can be written there. */
  static async begin(folder: string, scale: StripScale): Promise<ReadingsReport> {
    try {
      await makeFolder(folder);
      const path = join(folder, 'readings.html');
      return new ReadingsReport(path, await open(`${path}.part`, 'w'), scale);
    } catch (error) {
      console.error(`Can't write to ${folder}: ${(error as Error).message}`);
      process.exit(EXIT.wrongUse);
    }
  }

  async add(answer: PhotoAnswer): Promise<void> {
    const number = this.#rows.length + 1;
    const { reading } = answer;
    const entries = reading.outcome === 'read' ? entriesOf(reading, this.#scale) : null;
    if (entries) this.#read += 1;
    this.#rows.push(tableRow(answer, number, entries, this.#scale).text);
    await this.#body.write(`${photoPart(answer, number, entries).text}\n`);
  }

  async end(): Promise<void> {
    const { name } = this.#scale;
    const page = html`<!doctype html>
      <html lang="en-GB">
        <head>
          <meta charset="utf-8" />
          <meta
            http-equiv="Content-Security-Policy"
            content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"
          />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <title>${REPORT.title}</title>
          <style>
            ${raw(REPORT_STYLE)}
          </style>
        </head>
        <body>
          <h1>${REPORT.title}</h1>
          <p>${reportCountText(this.#rows.length, this.#read)} ${name}. ${momentText(new Date().toISOString())}.</p>
          <p class="caution">${REPORT.caution}</p>
          <table>
            <caption>
              ${REPORT.all}
            </caption>
            <thead>
              <tr>
                <th scope="col">${REPORT.photo}</th>
                ${this.#scale.pads.map(({ parameter }) => html`<th scope="col">${quantityTitle(parameter)}</th>`)}
              </tr>
            </thead>
            <tbody>
              ${raw(this.#rows.join('\n'))}
            </tbody>
          </table>
          ${raw(PHOTOS)}
        </body>
      </html> `;
    const [before, after] = page.text.split(PHOTOS);
    await this.#body.close();
    const whole = await open(`${this.#path}.whole`, 'w');
    await whole.write(before!);
    for await (const part of createReadStream(`${this.#path}.part`)) await whole.write(part as Buffer);
    await whole.write(after!);
    await whole.close();
    await rm(`${this.#path}.part`);
    await rename(`${this.#path}.whole`, this.#path);
  }
}

function entriesOf({ pads, warnings }: ReadOutcome, scale: StripScale): Entry[] {
  const timing = warnings.find((code) => code === 'read-early' || code === 'read-late') ?? null;
  return pads.map((pad, i) => ({ pad, scalePad: scale.pads[i]!, target: null, truth: null, byHand: null, timing }));
}

function tableRow({ path }: PhotoAnswer, number: number, entries: readonly Entry[] | null, scale: StripScale): Html {
  const name = html`<th scope="row"><a href="#photo-${number}">${number}. ${basename(path)}</a></th>`;
  if (!entries)
    return html`<tr>
      ${name}
      <td colspan="${scale.pads.length}">${REPORT.refused}</td>
    </tr>`;
  const cells = entries.map((entry) => html`<td>${withUnit(entry)}<br /><small>${spanText(entry)}</small></td>`);
  return html`<tr>
    ${name}${cells}
  </tr>`;
}

function photoPart(answer: PhotoAnswer, number: number, entries: readonly Entry[] | null): Html {
  const { path, reading, reasons } = answer;
  const warnings = reading.outcome === 'read' ? reading.warnings.map(warningMessage) : [];
  const pads = reading.outcome === 'read' ? reading.pads : [];
  return html`<section id="photo-${number}">
    <h2>${number}. ${basename(path)}</h2>
    <p class="path">${path}</p>
    ${reasons.map(({ message }) => html`<p><strong>${REPORT.refused}.</strong> ${message}</p>`)}
    ${warnings.map(({ wrong, remedy }) => html`<p><strong>${wrong}</strong> ${remedy}</p>`)}
    <div class="beside">
      ${answer.card ? drawnCard(answer.card, pads, REPORT.card(number)) : ''}
      ${entries ? html`<dl>${entries.map(padPart)}</dl>` : ''}
    </div>
  </section>`;
}

function padPart(entry: Entry, i: number): Html {
  return html`<div>
    <dt>${i + 1}. ${quantityTitle(entry.pad.quantity)}</dt>
    <dd><b>${withUnit(entry)}</b> ${intervalText(entry)}</dd>
  </div>`;
}

function withUnit(entry: Entry): string {
  return [valueText(entry), unitText(entry)].filter(Boolean).join(' ');
}
