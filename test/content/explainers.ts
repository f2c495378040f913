/** Reads the explainers as text, for checks on their words. */
import { plainText as withFigure } from '../../src/components/learn/plain-text.ts';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';

const folder = 'src/content/learn';

export interface Explainer {
  readonly name: string;
  readonly front: {
    readonly title: string;
    readonly summary: string;
    readonly kind: string;
    readonly sources: readonly string[];
    readonly cautions: readonly string[];
  };
  readonly body: string;
}

export const explainers: readonly Explainer[] = readdirSync(folder)
  .filter((file) => file.endsWith('.mdx'))
  .map((file) => {
    const [, front = '', body = ''] = /^---\n(.*?)\n---\n(.*)$/s.exec(readFileSync(join(folder, file), 'utf8')) ?? [];
    return { name: file.replace('.mdx', ''), front: parse(front) as Explainer['front'], body };
  });

/** The second-level headings in order. */
export function headings(body: string): string[] {
  return [...body.matchAll(/^## (.+)$/gm)].map(([, text]) => text ?? '');
}

/** The words of the page, one block a line; a computed figure stands as '5'. */
export function plainText(body: string): string {
  return withFigure(body, '5');
}
