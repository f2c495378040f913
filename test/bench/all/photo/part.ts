/** From a photo to its values, against a plain decode of it. */
import { describeMachine } from '../machine.ts';
import {
  figure,
  type Picture,
  type Ratio,
  type Section,
  type Spread,
  spreadText,
  type Table,
  verdict,
} from '../section.ts';
import { startBrowserBench } from './in-browser.ts';
import { measureInNode } from './in-node.ts';
import type { Measured } from './measured.ts';
import { ABOUT_PHOTOS, decodedMB, makePhotos } from './photos.ts';
import { drawStages } from './stages-picture.ts';

const ROUNDS = 7;
/** Promised of a photo of 12 megapixels in the page, in times of the plain decode; and of the decoded picture. */
const [MAX_WARM, MAX_PREPARED, MAX_COLD, MAX_MEMORY] = [1.5, 2, 3, 2.5];

type Place = 'page' | 'Node';
type Both = Readonly<Record<Place, readonly Measured[]>>;

export async function photoSection(rounds = ROUNDS): Promise<Section> {
  const { photos, remove } = await makePhotos();
  try {
    const bench = await startBrowserBench();
    const page: Measured[] = [];
    try {
      for (const photo of photos) page.push(await bench.measure(photo, rounds));
    } finally {
      await bench.close();
    }
    const both: Both = { page, Node: photos.map((photo) => measureInNode(photo, rounds)) };
    return {
      tables: [
        timeTable('page', both.page, rounds),
        timeTable('Node', both.Node, rounds),
        stageTable('page', both.page),
        stageTable('Node', both.Node),
        memoryTable(both),
        growthTable(both),
      ],
      ratios: [
        ...both.page.flatMap((one) => ratiosOf(one, 'page')),
        ...both.Node.flatMap((one) => ratiosOf(one, 'Node')),
      ],
      pictures: [coldPicture(both)],
      atTheEnd: endOf(both),
    };
  } finally {
    await remove();
  }
}

function endOf({ page }: Both): string {
  const { warm, prepared, cold } = page.find((one) => isPromised(one, 'page'))!.times;
  return `12 MP in the page, times the plain decode: warm ${spreadText(warm)}, prepared ${spreadText(prepared!)}, cold ${spreadText(cold)}`;
}

function isPromised({ photo }: Measured, place: Place): boolean {
  return place === 'page' && photo.megapixels === 12;
}

function multipleOf({ photo, beforeMB, peakMB }: Measured): number {
  return (peakMB - beforeMB) / decodedMB(photo);
}

function ratiosOf(one: Measured, place: Place): Ratio[] {
  const of = (most: number) => (isPromised(one, place) ? most : null);
  const name = `${one.photo.megapixels} MP, ${place}`;
  return [
    { name: `${name}: warm / decode`, ratio: one.times.warm.median, wanted: of(MAX_WARM) },
    { name: `${name}: cold / decode`, ratio: one.times.cold.median, wanted: of(MAX_COLD) },
    { name: `${name}: peak memory / picture`, ratio: multipleOf(one), wanted: of(MAX_MEMORY) },
  ];
}

const ABOUT = {
  page:
    'The floor is the browser’s own full decode of the same photo (`createImageBitmap`), warm. Cold is the first photo ' +
    'of a fresh page, handed over as soon as the page is ready: the reader comes from a server on the same machine, ' +
    'uncached. Values are there when the worker’s answer is. Prepared is the first photo of a fresh page handed over ' +
    'four seconds later: meanwhile the reader starts and reads a drawn one, because the page rests or the phone’s own ' +
    'chooser is open.',
  Node:
    'The floor is sharp’s own full decode to raw RGBA, warm. Cold is the first photo of a fresh process, its modules ' +
    'loaded.',
} as const;

function timeTable(place: Place, all: readonly Measured[], rounds: number): Table {
  const row = (one: Measured, reader: string, millis: number, times: Spread, most: number | null) => [
    `${one.photo.megapixels} MP`,
    reader,
    figure(one.decode),
    figure(millis),
    spreadText(times),
    ...verdict(times.median, isPromised(one, place) ? most : null),
  ];
  return {
    title: `Photo to values, in ${place === 'page' ? 'the page' : 'Node'}`,
    about: `${ABOUT_PHOTOS} ${ABOUT[place]} Medians of ${rounds}, ms. Times: the median of ratios, each of a round in which both were measured one right after the other, and between which the middle half of them lies.`,
    head: ['photo', 'reader', 'plain decode', 'photo to values', 'times', 'wanted', 'is'],
    rows: all.flatMap((one) => [
      row(one, 'warm', one.warm, one.times.warm, MAX_WARM),
      row(one, 'cold', one.cold, one.times.cold, MAX_COLD),
      ...(one.prepared === undefined ? [] : [row(one, 'prepared', one.prepared, one.times.prepared!, MAX_PREPARED)]),
    ]),
  };
}

const STAGES: Readonly<Record<string, string>> = {
  open: 'open the file (and decode it)',
  'take-pixels': 'pixels at hand',
  'find-card': 'find the card',
  flatten: 'flatten it',
  'find-strip': 'find the strip, sample',
  read: 'colours to values',
  sheet: 'values to the sheet drawn',
};

function stageTable(place: Place, all: readonly Measured[]): Table {
  const stages = all[0]!.stages.map(({ stage }) => stage);
  const of = (one: Measured, stage: string) => one.stages.find((each) => each.stage === stage)!;
  const times = (one: Measured, overMB: number) =>
    Number.isFinite(overMB) ? figure(overMB / decodedMB(one.photo)) : 'not seen';
  return {
    title: `Stages, in ${place === 'page' ? 'the page' : 'Node'}`,
    about:
      `Medians: ms warm / ${place === 'page' ? 'ms prepared / ' : ''}ms cold / memory beyond` +
      ' what was held before, in times of the decoded picture (4 bytes a ' +
      (place === 'page'
        ? 'pixel): the most seen in the stage of a cold first reading; “not seen” where the stage was shorter than the looks apart.'
        : 'pixel): held at the end of the stage of a cold first reading.'),
    head: ['stage', ...all.map(({ photo }) => `${photo.megapixels} MP`)],
    rows: stages.map((stage) => [
      STAGES[stage] ?? stage,
      ...all.map((one) => {
        const { warm, prepared, cold, overMB } = of(one, stage);
        const millis = prepared === undefined ? [warm, cold] : [warm, prepared, cold];
        return [...millis.map(figure), times(one, overMB)].join(' / ');
      }),
    ]),
  };
}

function coldPicture({ page }: Both): Picture {
  const { stages } = page.find((one) => isPromised(one, 'page'))!;
  const named = stages.map(({ stage, warm, cold }) => ({ name: STAGES[stage] ?? stage, warm, cold }));
  return {
    name: 'cold',
    svg: drawStages(named, describeMachine()),
    says: 'Bars of a first reading’s stages, one after the other; the table of stages says the same',
  };
}

function memoryTable(both: Both): Table {
  const row = (place: Place) => (one: Measured) => [
    `${one.photo.megapixels} MP, ${place}`,
    figure(decodedMB(one.photo)),
    figure(one.beforeMB),
    figure(one.peakMB),
    figure(multipleOf(one)),
    ...verdict(multipleOf(one), isPromised(one, place) ? MAX_MEMORY : null),
  ];
  return {
    title: 'Peak memory',
    about:
      'Of a cold first reading, so the reader is in it, MB. Page: all processes of the browser together, shared memory ' +
      'counted once (Pss of /proc), looked at every 12 ms or so until the sheet is drawn: a shorter peak may be missed. Node: the most the process ' +
      'ever held (maxRSS). Times: the rise over what was held before, against the decoded picture.',
    head: ['photo', 'decoded picture', 'before', 'peak', 'rise in times', 'wanted', 'is'],
    rows: [...both.page.map(row('page')), ...both.Node.map(row('Node'))],
  };
}

function growthTable(both: Both): Table {
  const rows = (['page', 'Node'] as const).flatMap((place) =>
    both[place].slice(1).map((one, i) => {
      const less = both[place][i]!;
      const grown = (of: (each: Measured) => number) => figure(of(one) / of(less));
      return [
        `${less.photo.megapixels} to ${one.photo.megapixels} MP, ${place}`,
        grown(({ photo }) => photo.width * photo.height),
        grown(({ decode }) => decode),
        grown(({ warm }) => warm),
        figure((one.warm - one.decode) / (less.warm - less.decode)),
        grown(({ cold }) => cold),
        figure((one.peakMB - one.beforeMB) / (less.peakMB - less.beforeMB)),
      ];
    }),
  );
  return {
    title: 'How it grows',
    about: 'Each size in times of the one before it. “Warm less decode” is what is ours.',
    head: ['photo', 'pixels', 'decode', 'warm', 'warm less decode', 'cold', 'rise of memory'],
    rows,
  };
}
