/** What shows a reading, fetched while a photo is being read: the page has nothing to show by it before. */
import ribbonLook from '../ribbon/ribbon.css?url';
import sheetLook from '../photo/sheet.css?url';

let looks: Promise<unknown> | null = null;

/** @throws when a part can't be fetched; the next call tries again */
export async function sheetParts(): Promise<typeof import('./sheet.ts')> {
  looks ??= Promise.all([ribbonLook, sheetLook].map(styled));
  try {
    const [sheet] = await Promise.all([import('./sheet.ts'), looks]);
    return sheet;
  } catch (error) {
    looks = null;
    throw error;
  }
}

/** In force once it has come. */
export function styled(href: string): Promise<void> {
  const link = document.createElement('link');
  link.rel = 'stylesheet';
  link.href = href;
  return new Promise((resolve, reject) => {
    link.addEventListener('load', () => resolve());
    link.addEventListener('error', () => {
      link.remove();
      reject(new Error(`${href} can’t be fetched`));
    });
    document.head.append(link);
  });
}
