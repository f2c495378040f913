import type { APIRoute } from 'astro';
import { getCollection, render } from 'astro:content';
import { buildIndex, searchDocuments } from '../../components/learn/search.ts';

export const GET: APIRoute = async () => {
  const pages = await getCollection('learn');
  const documents = await Promise.all(
    pages.map(async (entry) => {
      const { headings } = await render(entry);
      const anchors = headings.filter(({ depth }) => depth === 2).map(({ slug }) => slug);
      const { title, summary } = entry.data;
      return searchDocuments({ id: entry.id, title, summary, body: entry.body ?? '', anchors });
    }),
  );
  return new Response(JSON.stringify(buildIndex(documents.flat())), {
    headers: { 'content-type': 'application/json' },
  });
};
