import { describe, expect, it } from 'vitest';
import { folderImports, waysRound } from './folders.ts';

describe('the folders inside a room', () => {
  const imports = folderImports();

  it('are looked at', () => {
    expect(imports.size).toBeGreaterThan(40);
    expect(imports.get('src/components/read')?.has('src/components/ribbon')).toBe(true);
  });

  it('have no way round: what two of them share lies in a third', () => {
    expect(waysRound(imports)).toEqual([]);
  });

  it('would be found out', () => {
    const more = new Map(imports);
    more.set('src/components/ribbon', new Map([['src/components/read', 'ribbon.ts -> sheet.ts']]));
    expect(waysRound(more)).toContain('ribbon.ts -> sheet.ts');
  });
});
