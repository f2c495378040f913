/**
 * Asks for several items at a time and gives the answers in the order of the items. No more than `ahead` are under way or
 * wait for one before them, so that memory doesn't grow with their number.
 */
export async function* inOrder<Item, Answer>(
  items: Iterable<Item>,
  ahead: number,
  ask: (item: Item) => Promise<Answer>,
): AsyncGenerator<Answer> {
  const waiting: Promise<Answer>[] = [];
  for (const item of items) {
    const asked = ask(item);
    // One that fails is told when its turn comes.
    asked.catch(() => undefined);
    waiting.push(asked);
    if (waiting.length >= ahead) yield await waiting.shift()!;
  }
  for (const asked of waiting) yield await asked;
}
