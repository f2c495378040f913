/** The address of a page or file of this site, whatever path it is served under: `href('read/')`, `href('icon.svg')`. */
export function href(path = ''): string {
  const base = import.meta.env.BASE_URL;
  return `${base.endsWith('/') ? base : `${base}/`}${path.replace(/^\//, '')}`;
}

/** The whole address of the site's home, in the browser. */
export function siteBase(): string {
  return new URL(href(), location.href).href;
}
