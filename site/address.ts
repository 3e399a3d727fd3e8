/** Addresses within the site, under whatever base it is served. */
import { languagePath, languagesOf, languageWord } from '../pipeline/result/in-language.ts';
import type { House } from '../pipeline/result/result.ts';

/** Of what is the same in every language; `path` begins with a slash: `/icon.svg`. */
export function address(path: string): string {
  return import.meta.env.BASE_URL.replace(/\/$/, '') + path;
}

/** Gives addresses of pages in the language of the house: `/tests/<id>/`, and `/de/tests/<id>/` in German beside English. */
export const pageAddresses = (house: House) => (path: string) => address(languagePath(house) + path);

/** Address of a file of the press folder, as the manifest names it. */
export function fileAddress(path: string): string {
  return address(`/${path}`);
}

/** One page in one language. */
export interface Alternate {
  readonly tag: string;
  /** The word for the language in addresses; absent in the main one. */
  readonly lang?: string;
  readonly href: string;
  /** True for the page itself. */
  readonly here: boolean;
}

/** The page in every language, the main one first; only the page itself where it stands once for all of them. */
export function alternatesOf(
  { url, routePattern }: { readonly url: URL; readonly routePattern: string },
  house: House,
): readonly Alternate[] {
  const [main, ...further] = languagesOf(house).map(tag => ({ tag, lang: languageWord(tag) }));
  const path = url.pathname.slice(address('').length);
  const own = further.find(({ lang }) => path.startsWith(`/${lang}/`));
  const rest = own === undefined ? path : path.slice(own.lang.length + 1);
  const first = { tag: main!.tag, href: address(rest), here: own === undefined };
  if (!routePattern.startsWith('/[...lang]')) return [first];
  return [
    first,
    ...further.map(({ tag, lang }) => ({
      tag,
      lang,
      href: address(`/${lang}${rest}`),
      here: own?.lang === lang,
    })),
  ];
}
