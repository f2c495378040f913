/** Colour profiles of well-known spaces, written after ICC.1:2001-04 (version 2), with the matrices of colorjs.io. */
import Color from 'colorjs.io';

/** colorjs.io's name of the space, and its published gamma: Adobe RGB (1998) 4.3.1.2, ISO 22028-2 annex C. */
const SPACES = { a98rgb: 563 / 256, prophoto: 1.8 } as const;
export type ProfiledSpace = keyof typeof SPACES;

/** A matrix and gamma profile, display class, connection space XYZ (D50). */
export function iccProfile(space: ProfiledSpace): Buffer {
  const columns = [0, 1, 2].map((i) => {
    const coordinates = [0, 1, 2].map((k) => (k === i ? 1 : 0)) as [number, number, number];
    return new Color(space, coordinates).to('xyz-d50').coords.map(Number);
  });
  const curve = Buffer.alloc(14);
  curve.write('curv');
  curve.writeUInt32BE(1, 8);
  curve.writeUInt16BE(Math.round(SPACES[space] * 256), 12);
  const tags: [string, Buffer][] = [
    ['desc', description(space)],
    ['cprt', Buffer.from('text\0\0\0\0none\0', 'latin1')],
    ['wtpt', xyz([0.9642, 1, 0.8249])],
    ...(['rXYZ', 'gXYZ', 'bXYZ'] as const).map((name, i): [string, Buffer] => [name, xyz(columns[i]!)]),
    ...['rTRC', 'gTRC', 'bTRC'].map((name): [string, Buffer] => [name, curve]),
  ];
  return assemble(tags);
}

function assemble(tags: readonly [string, Buffer][]): Buffer {
  const table = Buffer.alloc(4 + 12 * tags.length);
  table.writeUInt32BE(tags.length, 0);
  const bodies: Buffer[] = [];
  let at = 128 + table.length;
  tags.forEach(([name, body], i) => {
    table.write(name, 4 + 12 * i);
    table.writeUInt32BE(at, 8 + 12 * i);
    table.writeUInt32BE(body.length, 12 + 12 * i);
    const padded = Buffer.concat([body, Buffer.alloc((4 - (body.length % 4)) % 4)]);
    bodies.push(padded);
    at += padded.length;
  });
  const header = Buffer.alloc(128);
  header.writeUInt32BE(at, 0);
  header.writeUInt32BE(0x02400000, 8);
  header.write('mntrRGB XYZ ', 12);
  header.write('acsp', 36);
  xyz([0.9642, 1, 0.8249]).copy(header, 68, 8);
  return Buffer.concat([header, table, ...bodies]);
}

function xyz(values: readonly number[]): Buffer {
  const body = Buffer.alloc(20);
  body.write('XYZ ');
  values.forEach((value, i) => body.writeInt32BE(Math.round(value * 65_536), 8 + 4 * i));
  return body;
}

function description(text: string): Buffer {
  const body = Buffer.alloc(12 + text.length + 1 + 8 + 3 + 67);
  body.write('desc');
  body.writeUInt32BE(text.length + 1, 8);
  body.write(text, 12, 'latin1');
  return body;
}
