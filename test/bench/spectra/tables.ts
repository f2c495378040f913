/** Measured spectra from a folder of CSV files, brought to the studio's wavelengths. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sensor } from '../../studio/camera/sensors.ts';
import { type Spectrum, WAVELENGTHS_NM } from '../../studio/spectra/wavelengths.ts';

export const FILES = {
  phones: 'camera_ssf_phones_measured_10nm.csv',
  cameras: 'camera_ssf_rawtoaces_5nm.csv',
  illuminants: 'illuminants_cie_5nm.csv',
  checker: 'reflectance_colorchecker24_ohta_5nm.csv',
  patches: 'reflectance_190patch_5nm.csv',
} as const;

export interface MeasuredSpectra {
  readonly phones: ReadonlyMap<string, Sensor>;
  readonly cameras: ReadonlyMap<string, Sensor>;
  readonly lights: ReadonlyMap<string, Spectrum>;
  readonly checker: readonly Spectrum[];
  readonly patches: readonly Spectrum[];
}

/** @throws Error naming the file that can't be read */
export function readSpectra(folder: string): MeasuredSpectra {
  return {
    phones: sensorsIn(columnsOf(folder, FILES.phones)),
    cameras: sensorsIn(columnsOf(folder, FILES.cameras)),
    lights: columnsOf(folder, FILES.illuminants),
    checker: [...columnsOf(folder, FILES.checker).values()],
    patches: [...columnsOf(folder, FILES.patches).values()],
  };
}

/** Every column but the first by its name; '#' lines are notes. */
function columnsOf(folder: string, file: string): Map<string, Spectrum> {
  let text: string;
  try {
    text = readFileSync(join(folder, file), 'utf8');
  } catch {
    throw new Error(`${join(folder, file)} can't be read`);
  }
  const [header, ...rows] = text
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => line.split(','));
  const nm = rows.map((cells) => Number(cells[0]));
  return new Map(
    header!.slice(1).map((name, i) => [
      name,
      onStudioGrid(
        nm,
        rows.map((cells) => cells[i + 1] ?? ''),
      ),
    ]),
  );
}

/** Linear between samples; nothing where the table is blank or ends. */
function onStudioGrid(nm: readonly number[], cells: readonly string[]): Spectrum {
  const known = nm.flatMap((at, i) => (cells[i] === '' ? [] : [[at, Number(cells[i])] as const]));
  return WAVELENGTHS_NM.map((wanted) => {
    const after = known.findIndex(([at]) => at >= wanted);
    if (after < 0) return 0;
    const [high, top] = known[after]!;
    if (high === wanted || after === 0) return high === wanted ? top : 0;
    const [low, bottom] = known[after - 1]!;
    return bottom + ((wanted - low) / (high - low)) * (top - bottom);
  });
}

function sensorsIn(columns: ReadonlyMap<string, Spectrum>): Map<string, Sensor> {
  const sensors = new Map<string, Sensor>();
  for (const [name, red] of columns) {
    if (!name.endsWith('_R')) continue;
    const camera = name.slice(0, -2);
    const [green, blue] = [columns.get(`${camera}_G`), columns.get(`${camera}_B`)];
    if (green && blue) sensors.set(camera, [red, green, blue]);
  }
  return sensors;
}
