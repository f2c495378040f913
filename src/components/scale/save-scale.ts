import { saveFile } from '../../browser/save-file.ts';
import type { StripScale } from '../../core/scale/schema.ts';

export async function saveScale(scale: StripScale): Promise<void> {
  const { scaleFileText } = await import('./scale-file.ts');
  saveFile(`${scale.id}.dipwise-scale.json`, [scaleFileText(scale)], 'application/json');
}
