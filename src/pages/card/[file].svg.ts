import type { APIRoute, GetStaticPaths } from 'astro';
import type { CardVariant } from '../../core/card/geometry.ts';
import { cardSvg } from '../../print/card-svg.ts';

interface Props extends Record<string, unknown> {
  variant: CardVariant;
}

const FILES: Readonly<Record<string, Props>> = {
  'dipwise-card': { variant: 'colour' },
  'dipwise-card-black': { variant: 'black' },
};

export const getStaticPaths: GetStaticPaths = () =>
  Object.entries(FILES).map(([file, props]) => ({ params: { file }, props }));

export const GET: APIRoute<Props> = ({ props }) =>
  new Response(cardSvg(props.variant, 0), { headers: { 'Content-Type': 'image/svg+xml' } });
