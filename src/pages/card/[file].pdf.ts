import type { APIRoute, GetStaticPaths } from 'astro';
import type { CardVariant } from '../../core/card/geometry.ts';
import { cardPdf } from '../../print/card-pdf.ts';
import type { Paper } from '../../print/sheet.ts';

interface Props extends Record<string, unknown> {
  variant: CardVariant;
  paper: Paper;
}

const FILES: Readonly<Record<string, Props>> = {
  'dipwise-card-a4': { variant: 'colour', paper: 'a4' },
  'dipwise-card-letter': { variant: 'colour', paper: 'letter' },
  'dipwise-card-black-a4': { variant: 'black', paper: 'a4' },
  'dipwise-card-black-letter': { variant: 'black', paper: 'letter' },
};

export const getStaticPaths: GetStaticPaths = () =>
  Object.entries(FILES).map(([file, props]) => ({ params: { file }, props }));

export const GET: APIRoute<Props> = async ({ props }) =>
  new Response(await cardPdf(props.variant, props.paper, 0), { headers: { 'Content-Type': 'application/pdf' } });
