import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseScale, type StripScale } from '../core/scale/schema.ts';
import { faultLine } from '../words/faults.ts';
import { readText } from './files.ts';

const FOLDER = fileURLToPath(new URL('../content/scales/', import.meta.url));

export function practiceScaleIds(): string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.json'))
    .map((file) => file.slice(0, -'.json'.length))
    .sort();
}

/**
 * @param fileOrId id of a practice scale, or path of a scale file
 * @throws Error with a sentence when there is no such scale or it isn't a good one
 */
export async function loadScale(fileOrId: string): Promise<StripScale> {
  const path = practiceScaleIds().includes(fileOrId) ? `${FOLDER}${fileOrId}.json` : fileOrId;
  const text = await readText(path).catch((error: Error) => {
    const there = `there is no scale '${fileOrId}' that can be used (${error.message})`;
    throw new Error(`${there}: give the id of a practice scale or a scale file`);
  });
  const parsed = parseScale(parseJson(text, fileOrId));
  if (parsed.ok) return parsed.scale;
  const issues = parsed.issues.map((fault) => `  ${faultLine(fault)}`);
  throw new Error(`the scale '${fileOrId}' can't be used:\n${issues.join('\n')}`);
}

function parseJson(text: string, name: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Error(`the scale '${name}' isn't JSON`);
  }
}
