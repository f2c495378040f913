/** Blur of a plane: out of focus, or moved during the exposure. */

/** Gaussian, in place. */
export function blurPlane(plane: Float32Array, widthPx: number, heightPx: number, sigmaPx: number): void {
  if (sigmaPx < 0.2) return;
  const radius = Math.max(1, Math.ceil(2.6 * sigmaPx));
  const kernel = Float64Array.from({ length: radius + 1 }, (_, i) => Math.exp(-0.5 * (i / sigmaPx) ** 2));
  const sum = kernel.reduce((total, value, i) => total + (i === 0 ? value : 2 * value), 0);
  kernel.forEach((value, i) => (kernel[i] = value / sum));
  const line = new Float32Array(Math.max(widthPx, heightPx) + 2 * radius);
  for (let y = 0; y < heightPx; y++) {
    const start = y * widthPx;
    line.set(plane.subarray(start, start + widthPx), radius);
    line.fill(plane[start]!, 0, radius);
    line.fill(plane[start + widthPx - 1]!, radius + widthPx, widthPx + 2 * radius);
    for (let x = 0; x < widthPx; x++) plane[start + x] = convolve(line, x + radius, kernel);
  }
  blurColumns(plane, widthPx, heightPx, kernel);
}

function convolve(line: Float32Array, at: number, kernel: Float64Array): number {
  let sum = kernel[0]! * line[at]!;
  for (let k = 1; k < kernel.length; k++) sum += kernel[k]! * (line[at - k]! + line[at + k]!);
  return sum;
}

/** Column blur that walks row by row, which memory likes better; keeps a ring of untouched rows. */
function blurColumns(plane: Float32Array, widthPx: number, heightPx: number, kernel: Float64Array): void {
  const radius = kernel.length - 1;
  const kept = 2 * radius + 1;
  const ring = Array.from({ length: kept }, () => new Float32Array(widthPx));
  const rowAt = (y: number) => ring[((y % kept) + kept) % kept]!;
  const load = (y: number) => {
    const from = Math.min(heightPx - 1, Math.max(0, y)) * widthPx;
    rowAt(y).set(plane.subarray(from, from + widthPx));
  };
  for (let y = -radius; y < radius; y++) load(y);
  for (let y = 0; y < heightPx; y++) {
    if (y + radius < heightPx) load(y + radius);
    else rowAt(y + radius).set(rowAt(heightPx - 1));
    const out = plane.subarray(y * widthPx, (y + 1) * widthPx);
    const middle = rowAt(y);
    for (let x = 0; x < widthPx; x++) out[x] = kernel[0]! * middle[x]!;
    for (let k = 1; k <= radius; k++) {
      const [above, below, weight] = [rowAt(y - k), rowAt(y + k), kernel[k]!];
      for (let x = 0; x < widthPx; x++) out[x]! += weight * (above[x]! + below[x]!);
    }
  }
}

/** Mean along a line about each pixel: a moved hand. */
export function smearPlane(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  motion: { readonly lengthPx: number; readonly turnDegrees: number },
): Float32Array {
  if (motion.lengthPx < 0.5) return plane;
  const steps = Math.max(2, Math.ceil(motion.lengthPx) + 1);
  const angle = (motion.turnDegrees * Math.PI) / 180;
  const out = new Float32Array(plane.length);
  for (let i = 0; i < steps; i++) {
    const t = motion.lengthPx * (i / (steps - 1) - 0.5);
    const [dx, dy] = [Math.round(t * Math.cos(angle)), Math.round(t * Math.sin(angle))];
    for (let y = 0; y < heightPx; y++) {
      const row = Math.min(heightPx - 1, Math.max(0, y + dy)) * widthPx;
      for (let x = 0; x < widthPx; x++) {
        out[y * widthPx + x]! += plane[row + Math.min(widthPx - 1, Math.max(0, x + dx))]! / steps;
      }
    }
  }
  return out;
}
