/** The pads of an invented strip for the seasons: values of its blocks. */
export interface StripPad {
  readonly quantity: 'total-alkalinity' | 'total-hardness' | 'cyanuric-acid' | 'salt';
  readonly blocks: readonly number[];
}

export const STRIP: readonly StripPad[] = [
  { quantity: 'total-alkalinity', blocks: [0, 40, 80, 120, 180, 240] },
  { quantity: 'total-hardness', blocks: [0, 100, 200, 400, 800] },
  { quantity: 'cyanuric-acid', blocks: [0, 30, 60, 100, 150] },
  { quantity: 'salt', blocks: [1000, 2000, 3000, 4000, 5000] },
];
