/** Follows every link of a built site, as a reader's browser would resolve it. */
import { type BuiltSite, htmlOf } from './built-site.ts';
import type { StaticServer } from './static-server.ts';

interface Followed {
  /** At most ten, each with the page it stands on. */
  readonly broken: readonly string[];
  /** Number of different addresses asked for. */
  readonly followed: number;
}

/** Pages, files and places within the site; what leads elsewhere is left alone. */
export async function followLinks(
  { folder, pages }: Pick<BuiltSite, 'folder' | 'pages'>,
  server: StaticServer,
): Promise<Followed> {
  const broken: string[] = [];
  const seen = new Map<string, { status: number; ids: ReadonlySet<string> }>();
  for (const path of pages) {
    const from = new URL(path, server.address);
    const html = htmlOf({ folder }, path);
    const links = [...html.matchAll(/\s(?:href|src|srcset)="([^"]*)"/g)].map(match =>
      match[1]!.replaceAll('&#38;', '&').replaceAll('&amp;', '&'),
    );
    for (const link of new Set(links)) {
      const target = new URL(link, from);
      if (target.origin !== from.origin || html.includes(`rel="canonical" href="${link}"`)) continue;
      const key = target.origin + target.pathname;
      if (!seen.has(key)) seen.set(key, await ask(key));
      const { status, ids } = seen.get(key)!;
      const place = decodeURIComponent(target.hash.slice(1));
      if (status !== 200 || (place !== '' && !ids.has(place))) broken.push(`${path}: ${link} (${status})`);
    }
  }
  return { broken: broken.slice(0, 10), followed: seen.size };
}

async function ask(address: string): Promise<{ status: number; ids: ReadonlySet<string> }> {
  const response = await fetch(address);
  const isPage = response.headers.get('content-type')?.startsWith('text/html') === true;
  if (!isPage) await response.body?.cancel();
  const body = isPage ? await response.text() : '';
  return {
    status: response.status,
    ids: new Set([...body.matchAll(/\sid="([^"]*)"/g)].map(match => match[1]!)),
  };
}
