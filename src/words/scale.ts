/** The sentences for what is doubtful about a scale or the photo of a chart: one place, shared by command and page. */
import { quantityTitle } from './quantities.ts';
import { plural } from './grammar.ts';
import { numberText } from './numbers.ts';
import type { ScaleConcern } from '../core/scale/check-scale.ts';
import type { ChartConcern } from '../core/scale/judge-chart.ts';
import type { StripScale } from '../core/scale/schema.ts';

export function scaleConcernText(scale: StripScale, concern: ScaleConcern): string {
  const pad = scale.pads[concern.pad]!;
  const name = quantityTitle(pad.parameter);
  const value = (one: number) => numberText(one, { figures: one < 1 ? 2 : 3 });
  switch (concern.code) {
    case 'hardly-changes-above':
      return `${name}: above ${value(concern.from)} the colours hardly change. A reading up there says “${value(concern.from)} or more”, and no more than that.`;
    case 'steps-too-small':
      return `${name}: ${value(concern.from)} and ${value(concern.to)} look almost alike. Between them a reading can’t decide.`;
    case 'fold':
      return `${name}: the colours at about ${value(concern.one)} and ${value(concern.other)} nearly meet. A reading there may give both values.`;
    case 'photos-disagree':
      return `${name}: the block ${value(concern.value)} looks different in one photo of the chart. Was another block tapped, or another chart photographed?`;
  }
}

export function chartConcernText(concern: ChartConcern): string {
  switch (concern.code) {
    case 'far':
      return `The chart lies ${numberText(Math.round(concern.mm))} mm or more from the card, and the light there can’t be known. Lay it close beside the card and take the photo again.`;
    case 'uneven':
      return 'The light changes over the chart: a shadow falls on it, or it curves away. Flatten it as well as you can, in even shade, and take the photo again if you can.';
    case 'glare':
      return `${plural(concern.blocks.length, 'One block mirrors', `${concern.blocks.length} blocks mirror`)} the light or are too bright to tell their colour. Turn the chart and the card together until nothing shines, and take the photo again.`;
    case 'other-light':
      return OTHER_LIGHT[concern.kind];
  }
}

const OTHER_LIGHT: Record<Extract<ChartConcern, { code: 'other-light' }>['kind'], string> = {
  tinted:
    'The label around the blocks looks tinted beside the card’s paper. If it is printed so, all is well. If it is white, the chart lies in other light than the card: move both into the same shade and take the photo again.',
  darker:
    'The label around the blocks looks darker than the card’s paper. If it is white, the chart lies in a shadow: move both into the same light and take the photo again.',
  brighter:
    'The chart is lit more brightly than the card. Move both into the same even light and take the photo again.',
};
