import { describe, expect, it } from 'vitest';
import { checkScale } from '../../../src/core/scale/check-scale.ts';
import { plainScale } from './fixtures.ts';

describe('checking a scale', () => {
  it('has nothing to say of even, distinct steps', () => {
    expect(checkScale({ ...plainScale(), pads: [plainScale().pads[0]!] })).toEqual([]);
  });

  it('says from where on the colours hardly change', () => {
    const concerns = checkScale({ ...plainScale(), pads: [plainScale().pads[1]!] });
    expect(concerns).toMatchObject([{ code: 'hardly-changes-above', pad: 0, from: 5 }]);
  });

  it('names a pair in the middle that cannot be told apart', () => {
    const scale = plainScale();
    const { blocks } = scale.pads[0]!;
    blocks[2]!.lab = [blocks[1]!.lab[0] - 0.5, blocks[1]!.lab[1], blocks[1]!.lab[2]];
    expect(checkScale({ ...scale, pads: [scale.pads[0]!] })).toMatchObject([
      { code: 'steps-too-small', from: 6.8, to: 7.2 },
    ]);
  });

  it('finds where the curve comes back near itself', () => {
    const scale = plainScale();
    const { blocks } = scale.pads[0]!;
    blocks[4]!.lab = [blocks[0]!.lab[0] + 0.5, blocks[0]!.lab[1] + 1, blocks[0]!.lab[2]];
    const [fold] = checkScale({ ...scale, pads: [scale.pads[0]!] });
    expect(fold).toMatchObject({ code: 'fold', pad: 0 });
    if (fold?.code === 'fold') {
      expect(fold.one).toBeLessThan(7.2);
      expect(fold.other).toBeGreaterThan(7.8);
    }
  });

  it('finds a block that two photos saw quite differently', () => {
    const scale = plainScale();
    const blocks = scale.pads.map((pad) => pad.blocks.map(({ lab }) => lab));
    const other = structuredClone(blocks);
    other[0]![3] = [20, 0, 0];
    const teaching = { cardVersion: 1, light: '', print: { dotGain: 0.2, black: 0.05 }, neutrals: {}, anchors: {} };
    const concerns = checkScale({
      ...scale,
      teachings: [
        { ...teaching, blocks },
        { ...teaching, blocks: other },
      ],
    });
    expect(concerns.filter(({ code }) => code === 'photos-disagree')).toMatchObject([{ pad: 0, value: 7.8 }]);
  });
});
