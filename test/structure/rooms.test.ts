import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { countRooms, drawRooms } from './rooms.ts';

describe('the drawing of the rooms', () => {
  const rooms = countRooms();

  it.each([
    ['that is kept', () => readFileSync('test/structure/rooms.svg', 'utf8')],
    ['that would be made now', () => drawRooms(rooms)],
  ])('%s has every room, its packages and every arrow of the code: else run `npm run rooms`', async (_, drawing) => {
    const svg = await drawing();
    const texts = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!.replaceAll('&#45;', '-'));
    for (const [box, { packages }] of rooms.boxes) {
      expect(texts).toContain(box);
      if (packages.length) expect(texts).toContain(packages.join(', '));
    }
    const told = /Imports from room to room\. (.*?)\.<\/desc>/.exec(svg)?.[1]?.split('; ') ?? [];
    expect(told.sort()).toEqual([...rooms.arrows.keys()].map((arrow) => arrow.replace(' -> ', ' to ')).sort());
    expect(svg.match(/class="node"/g)).toHaveLength(rooms.boxes.size);
    expect(svg.match(/class="edge"/g)).toHaveLength(rooms.arrows.size);
  });

  it('counts every import between rooms', () => {
    expect(rooms.arrows.get('src/pages -> src/layouts')).toBeGreaterThan(5);
    expect(rooms.arrows.get('src/components -> src/core')).toBeGreaterThan(100);
    expect(rooms.boxes.get('src/core')!.packages).toEqual(['culori', 'zod']);
    for (const { files } of rooms.boxes.values()) expect(files).toBeGreaterThan(0);
  });

  it('has no way round: arrows lead down only', () => {
    const left = [...rooms.arrows.keys()].map((arrow) => arrow.split(' -> '));
    for (let before = Infinity; left.length < before;) {
      before = left.length;
      const users = new Set(left.map(([from]) => from));
      for (let i = left.length - 1; i >= 0; i--) if (!users.has(left[i]![1]!)) left.splice(i, 1);
    }
    expect(left).toEqual([]);
  });

  it('would look different with one arrow more', async () => {
    const arrows = new Map(rooms.arrows).set('src/core -> src/vision', 1);
    expect(await drawRooms({ ...rooms, arrows })).not.toBe(await drawRooms(rooms));
  });
});
