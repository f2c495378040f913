import { describe, expect, test } from 'vitest';
import {
  emptyDraft,
  evenlySpaced,
  finishStrip,
  turnedRound,
  withPadCount,
} from '../../../src/components/teach/strip-draft.ts';

const wanted = ['ph', 'free-chlorine'] as const;
const measured = { ...evenlySpaced(emptyDraft(wanted), 4, 9.2, 5), lengthMm: '80', widthMm: '5,5' };

describe('a strip described by hand', () => {
  test('pads evenly spaced, as high as long', () => {
    const { result } = finishStrip(measured, wanted);
    expect(result).toEqual({
      strip: { lengthMm: 80, widthMm: 5.5 },
      pads: [
        { parameter: 'ph', centreMm: 4, widthMm: 5, heightMm: 5 },
        { parameter: 'free-chlorine', centreMm: 13.2, widthMm: 5, heightMm: 5 },
      ],
      seen: null,
    });
  });

  test('turned round, the measures change places and the pads stay', () => {
    const { pads } = turnedRound(measured);
    expect(pads.map(({ parameter }) => parameter)).toEqual(['free-chlorine', 'ph']);
    expect(pads.map(({ centre }) => centre)).toEqual(['4', '13.2']);
  });

  test('a pad that is not on the chart is left out', () => {
    const three = evenlySpaced(withPadCount(measured, 3), 4, 9.2, 5);
    const pads = [
      three.pads[0]!,
      { ...three.pads[1]!, parameter: null },
      { ...three.pads[2]!, parameter: 'free-chlorine' as const },
    ];
    expect(finishStrip({ ...three, pads }, wanted).result?.pads.map(({ centreMm }) => centreMm)).toEqual([4, 22.4]);
  });

  test('what is missing is named', () => {
    expect(finishStrip({ ...measured, widthMm: '' }, wanted).problem?.code).toBe('strip-size');
    expect(finishStrip(emptyDraft(wanted), wanted).problem?.code).toBe('strip-size');
    const noPlace = { ...measured, pads: [measured.pads[0]!, { ...measured.pads[1]!, centre: '' }] };
    expect(finishStrip(noPlace, wanted).problem).toEqual({ code: 'pad-size', pad: 1 });
    const same = { ...measured, pads: measured.pads.map((pad) => ({ ...pad, parameter: 'ph' as const })) };
    expect(finishStrip(same, wanted).problem).toEqual({ code: 'pad-twice', pad: 1 });
    const one = { ...measured, pads: [measured.pads[0]!] };
    expect(finishStrip(one, wanted).problem).toEqual({ code: 'left-out', parameters: ['free-chlorine'] });
  });
});
