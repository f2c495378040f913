/** The address of a page or file of this site, whatever path it is served under: `href('read/')`, `href('icon.svg')`. */
export function href(path = ''): string {
  const base = import.meta.env.BASE_URL;
  return `${base.endsWith('/') ? base : `${base}/`}${path.replace(/^\//, '')}`;
}
