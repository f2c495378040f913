/** Looks that camera apps lay over a picture; invented ones, on encoded levels 0 to 255. */

export type FilterName = 'grey' | 'faded-brown' | 'faded' | 'loud' | 'cold';

type Change = (r: number, g: number, b: number) => readonly [number, number, number];

/** Luma of encoded levels, ITU-R BT.601. */
const luma = (r: number, g: number, b: number) => 0.299 * r + 0.587 * g + 0.114 * b;

const mixed =
  (share: number): Change =>
  (r, g, b) => {
    const y = luma(r, g, b);
    return [y + share * (r - y), y + share * (g - y), y + share * (b - y)];
  };

const FILTERS: Readonly<Record<FilterName, Change>> = {
  grey: mixed(0),
  'faded-brown': (r, g, b) => {
    const y = luma(r, g, b);
    return [0.8 * y + 48, 0.78 * y + 30, 0.74 * y + 8].map(
      (brown, i) => 0.85 * brown + 0.15 * [r, g, b][i]!,
    ) as unknown as [number, number, number];
  },
  faded: mixed(0.5),
  loud: mixed(1.8),
  cold: (r, g, b) => [0.75 * r, 0.95 * g, 255 - 0.75 * (255 - b)],
};

export function filterPlanes(planes: readonly Float32Array[], name: FilterName): void {
  const [red, green, blue] = planes as [Float32Array, Float32Array, Float32Array];
  for (let i = 0; i < red.length; i++) {
    const [r, g, b] = FILTERS[name](red[i]!, green[i]!, blue[i]!);
    red[i] = r;
    green[i] = g;
    blue[i] = b;
  }
}
