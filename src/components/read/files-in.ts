/** Files that are chosen, dropped on the page or pasted into it. */

/**
 * @param zone lights up while a file hangs over the page
 * @param take gets the files, at least one
 */
export function listenForFiles(zone: HTMLElement, take: (files: readonly File[]) => void): void {
  const takeFrom = (transfer: DataTransfer | null, event: Event) => {
    const files = [...(transfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    take(files);
  };
  const stop = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    zone.classList.toggle('over', event.type === 'dragover');
  };
  for (const type of ['dragover', 'dragleave'] as const) document.addEventListener(type, stop);
  document.addEventListener('drop', (event) => {
    zone.classList.remove('over');
    takeFrom(event.dataTransfer, event);
  });
  document.addEventListener('paste', (event) => takeFrom(event.clipboardData, event));
}

/** @param onOpen the visitor goes to choose or to take a photo */
export function listenForChosen(
  input: HTMLInputElement,
  take: (files: readonly File[]) => void,
  onOpen: () => void,
): void {
  input.addEventListener('change', () => {
    const files = [...(input.files ?? [])];
    input.value = '';
    if (files.length > 0) take(files);
  });
  input.addEventListener('click', onOpen);
}
