/** Addresses within the site, under whatever base it is served. */

/** `path` begins with a slash: `/tests/<id>/`. */
export function address(path: string): string {
  return import.meta.env.BASE_URL.replace(/\/$/, '') + path;
}

/** Address of a file of the press folder, as the manifest names it. */
export function fileAddress(path: string): string {
  return address(`/${path}`);
}
