/** The chart's photo, its blocks marked, and the rows filled in. */
import type { Opening, TeachClient } from '../../browser/teach-client.ts';
import type { Point } from '../../core/card/homography.ts';
import { fitNeutrals } from '../../core/colour/neutrals.ts';
import { refusalMessage } from '../../words/reading.ts';
import { judgeChart } from '../../core/scale/judge-chart.ts';
import { chartConcernText } from '../../words/scale.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { BlockFound, BlockSearch, ChartFound } from '../../vision/messages.ts';
import { h, lookAt, need } from '../dom.ts';
import { PhotoBoard } from './board.ts';
import type { Outline } from './board-drawing.ts';
import { chartResult, type ChartResult, labsOf } from './chart-result.ts';
import { CountForm } from './count-form.ts';
import { missingPads, recognised, withKnownValues } from './known-rows.ts';
import { type Opened, PhotoEntry } from './photo-entry.ts';
import { problemsOf, type Row, rowOf, withBlock, withoutBlock } from './rows.ts';
import { RowsView } from './rows-view.ts';
import { blocksText, FAILED, OFF_CHART, rowsText } from '../../words/teach.ts';

const USUAL_COUNT = 6;
/** A tap this near to a marked block's middle means that block, mm. */
const SAME_BLOCK_MM = 2.5;

export class ChartStep {
  readonly #root: HTMLElement;
  readonly #client: TeachClient;
  readonly #entry: PhotoEntry;
  readonly #board: PhotoBoard;
  readonly #rowsView: RowsView;
  readonly #count: CountForm;
  readonly #onReady: (result: ChartResult) => void;
  /** The scale that this photo adds another light to. */
  #known: StripScale | null = null;
  #chart: ChartFound | null = null;
  #rows: readonly Row[] = [];
  #proposed: readonly (readonly BlockFound[])[] = [];
  /** Row that taps go to; one past the last begins a new one. */
  #current = 0;
  #asked = false;

  constructor(root: HTMLElement, client: TeachClient, onReady: (result: ChartResult) => void) {
    this.#root = root;
    this.#client = client;
    this.#onReady = onReady;
    this.#entry = new PhotoEntry(root, (photo) => this.#open(photo));
    this.#board = new PhotoBoard(need(root, '.board'), {
      onTap: (place) => void this.#mark(place),
      onRow: (from, to) => void this.#askCount(from, to),
      onErase: (place) => this.#erase(place),
      onNewRow: () => this.#newRow(),
    });
    this.#rowsView = new RowsView(need(root, '.rows'), {
      onChange: (index, change, redraw) => this.#change(index, change, redraw),
      onRemove: (index) => this.#remove(index),
      onCurrent: (index) => this.#choose(index),
    });
    this.#count = new CountForm(need(root, '.count-form'));
    this.#listen();
  }

  /** From now on the photo adds a light to this scale: its rows, blocks and values are known. */
  addTo(scale: StripScale): void {
    this.#known = scale;
  }

  get marked(): boolean {
    return this.#rows.length > 0;
  }

  #listen(): void {
    need(this.#root, '[data-do=accept]').addEventListener('click', () => this.#accept());
    need(this.#root, '[data-do=decline]').addEventListener('click', () => this.#decline());
    need(this.#root, '[data-do=new-row]').addEventListener('click', () => this.#newRow());
    need(this.#root, '[data-do=done]').addEventListener('click', () => this.#finish());
  }

  async #open({ picture, url }: Opened): Promise<void> {
    this.#entry.say('Finding the card and the rows of the chart…');
    let opening: Opening<ChartFound>;
    try {
      opening = await this.#client.openChart(picture);
    } catch (error) {
      console.error(error);
      return this.#entry.refuse(FAILED);
    }
    if (!opening.ok) return this.#entry.refuse(refusalMessage(opening.reason));
    this.#chart = opening.found;
    this.#rows = [];
    this.#current = 0;
    this.#asked = false;
    this.#proposed = opening.found.rows;
    const { widthPx, heightPx, pxPerMm } = opening.found;
    this.#entry.say('The card was found.');
    need<HTMLElement>(this.#root, '.marking').hidden = false;
    const start = this.#proposed[0]?.[0]?.centre ?? ([widthPx / 2, heightPx / 2] as const);
    this.#board.open({ url, widthPx, heightPx, pxPerMm, start });
    this.#showProposals();
    this.#redraw();
    lookAt(need(this.#root, '.marking'));
  }

  #showProposals(): void {
    const bar = need<HTMLElement>(this.#root, '.proposals');
    bar.hidden = this.#proposed.length === 0;
    if (bar.hidden) return;
    const counts = this.#proposed.map((row) => row.length);
    need(bar, '[role=status]').textContent =
      `There seem to be ${rowsText(counts)}. They are outlined in the photo. A block too many does no harm: leave its value empty. One too few can be tapped.`;
  }

  #accept(): void {
    this.#rows = this.#recognise(this.#proposed.map((blocks) => rowOf(blocks)));
    this.#current = this.#rows.length;
    this.#decline();
    this.#say(`${rowsText(this.#rows.map(({ marks }) => marks.length))} marked.`);
    this.#root.querySelector<HTMLElement>('.rows select')?.focus();
  }

  #decline(): void {
    this.#proposed = [];
    this.#showProposals();
    this.#redraw();
    this.#board.focus();
  }

  async #mark(place: Point): Promise<void> {
    const [found] = (await this.#ask(() => this.#client.blocks([place]))) ?? [];
    if (!found) return;
    if (!found.block) return this.#say(OFF_CHART[found.reason]);
    const known = this.#near(found.block.centre);
    if (known) return this.#say(`That block is marked already: block ${known.mark + 1} of row ${known.row + 1}.`);
    const rows = [...this.#rows];
    const at = Math.min(this.#current, rows.length);
    rows[at] = rows[at] ? withBlock(rows[at], found.block) : rowOf([found.block]);
    this.#current = at;
    this.#setRows(rows);
    const edges = found.block.snapped
      ? ''
      : ' Its edges can’t be told from the label, so only the place you chose counts.';
    this.#say(`Marked: row ${at + 1} has ${blocksText(rows[at].marks.length)}.${edges}`);
  }

  async #askCount(from: Point, to: Point): Promise<void> {
    const count = await this.#count.ask(this.#rows.at(-1)?.marks.length ?? USUAL_COUNT);
    if (count === undefined) return;
    this.#board.forgetRow();
    this.#board.focus();
    if (count !== null) await this.#markRow(from, to, count);
  }

  async #markRow(from: Point, to: Point, count: number): Promise<void> {
    const found = await this.#ask(() => this.#client.row(from, to, count));
    const blocks = found?.flatMap(({ block }) => block ?? []);
    if (!blocks) return;
    if (blocks.length === 0) return this.#say(OFF_CHART['on-card']);
    const rows = [...this.#rows, ...this.#recognise([rowOf(blocks)])];
    this.#current = rows.length;
    this.#setRows(rows);
    this.#board.lead((await import('./next-row.ts')).nextRow(this.#rows));
    this.#say(`Row ${rows.length} marked, with ${blocksText(blocks.length)}.`);
  }

  async #ask(question: () => Promise<readonly BlockSearch[]>): Promise<readonly BlockSearch[] | null> {
    try {
      return await question();
    } catch (error) {
      console.error(error);
      this.#say(`${FAILED.wrong} ${FAILED.remedy}`);
      return null;
    }
  }

  #near([x, y]: Point): { readonly row: number; readonly mark: number } | null {
    const reach = SAME_BLOCK_MM * (this.#chart?.pxPerMm ?? 1);
    for (const [row, { marks }] of this.#rows.entries()) {
      const mark = marks.findIndex(({ block: { centre } }) => Math.hypot(centre[0] - x, centre[1] - y) < reach);
      if (mark >= 0) return { row, mark };
    }
    return null;
  }

  #erase(place: Point): void {
    const near = this.#near(place);
    if (!near) return this.#say('No marked block lies under the crosshair.');
    const row = withoutBlock(this.#rows[near.row]!, near.mark);
    if (row.marks.length === 0) return this.#remove(near.row);
    this.#setRows(this.#rows.map((one, i) => (i === near.row ? row : one)));
    this.#say(`Block removed: row ${near.row + 1} has ${blocksText(row.marks.length)}.`);
  }

  #newRow(): void {
    this.#current = this.#rows.length;
    this.#redraw();
    this.#say(`The next block begins row ${this.#current + 1}.`);
    this.#board.focus();
  }

  #choose(index: number): void {
    this.#current = index;
    this.#redraw();
  }

  #change(index: number, change: (row: Row) => Row, redraw: boolean): void {
    this.#rows = this.#rows.map((row, i) => (i === index ? this.#turned(change(row)) : row));
    if (redraw) this.#redraw();
  }

  #remove(index: number): void {
    this.#setRows(this.#rows.filter((_, i) => i !== index));
    this.#current = this.#rows.length;
    this.#say(`Row ${index + 1} removed.`);
    this.#redraw();
  }

  #setRows(rows: readonly Row[]): void {
    this.#rows = rows.map((row) => this.#filled(row));
    this.#redraw();
  }

  #redraw(): void {
    const outlines = this.#rows.flatMap(({ marks }, i) =>
      marks.map(({ block }, k): Outline => ({
        points: block.outline,
        label: String(k + 1),
        kind: i === this.#current ? 'current' : 'marked',
        snapped: block.snapped,
      })),
    );
    const proposals = this.#proposed.flat().map((block): Outline => ({
      points: block.outline,
      label: '',
      kind: 'proposed',
      snapped: block.snapped,
    }));
    this.#board.draw([...outlines, ...proposals]);
    this.#rowsView.draw({
      rows: this.#rows,
      current: this.#current,
      problems: this.#asked ? problemsOf(this.#rows) : [],
      fixed: this.#known?.pads.map(({ parameter }) => parameter) ?? null,
      source: { image: this.#board.image, photo: this.#chart ?? { widthPx: 1, heightPx: 1, pxPerMm: 1 } },
    });
    need<HTMLElement>(this.#root, '.after-rows').hidden = this.#rows.length === 0;
    this.#showConcerns();
  }

  #showConcerns(): void {
    const box = need(this.#root, '.concerns');
    const blocks = this.#rows.flatMap(({ marks }) => marks.map(({ block }) => block));
    if (!this.#chart || blocks.length < 4) return box.replaceChildren();
    const { samples } = this.#chart;
    const concerns = judgeChart(samples, fitNeutrals(samples), blocks);
    box.replaceChildren(...concerns.map((concern) => h('p', { class: 'wrong' }, chartConcernText(concern))));
  }

  /** Rows of a photo in another light, told by the colours they are known to have. */
  #recognise(rows: readonly Row[]): readonly Row[] {
    if (!this.#known) return rows;
    const blocks = rows.map(({ marks }) => marks.map(({ block }) => block));
    return recognised(rows, labsOf(this.#chart!.samples, blocks), this.#known);
  }

  /** A row said to be one that is known runs the way in which its colours fit. */
  #turned(row: Row): Row {
    const [own] = this.#recognise([row]);
    return own?.parameter === row.parameter ? own : this.#filled(row);
  }

  #filled(row: Row): Row {
    return this.#known ? withKnownValues(row, this.#known) : row;
  }

  #finish(): void {
    this.#asked = true;
    const wrong = problemsOf(this.#rows).flat().length;
    this.#redraw();
    if (wrong > 0) {
      this.#sayLast(wrong === 1 ? 'One thing has to be put right.' : `${wrong} things have to be put right.`);
      return this.#rowsView.focusProblem();
    }
    const missing = this.#known ? missingPads(this.#rows, this.#known) : 0;
    if (missing > 0) {
      const of = `${missing} of ${this.#known!.pads.length}`;
      return this.#sayLast(`The photo must show all rows that the scale knows, with all their blocks. Missing: ${of}.`);
    }
    this.#sayLast('');
    this.#onReady(chartResult(this.#chart!.samples, this.#rows));
  }

  #say(text: string): void {
    need(this.#root, '.said').textContent = text;
  }

  /** Beside the button that goes on. */
  #sayLast(text: string): void {
    need(this.#root, '.rows-said').textContent = text;
  }
}
