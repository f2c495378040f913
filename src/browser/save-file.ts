/** Saving to a file, and names for files. */

export function saveFile(name: string, parts: readonly BlobPart[], type: string): void {
  const url = URL.createObjectURL(new Blob([...parts], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser reads the address after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** dipwise-logbook-2026-07-14.json */
export function fileName(what: string, extension: string, now = new Date()): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `dipwise-${what}-${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}.${extension}`;
}
