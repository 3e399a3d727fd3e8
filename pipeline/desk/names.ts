/** Names of files made from what a person typed. */

const LETTERS: Readonly<Record<string, string>> = {
  ä: 'ae',
  ö: 'oe',
  ü: 'ue',
  ß: 'ss',
  æ: 'ae',
  ø: 'o',
  å: 'a',
  œ: 'oe',
  ð: 'd',
  þ: 'th',
  ł: 'l',
};

/** Lower-case letters, digits and single hyphens, as the content's names are; `fallback` where nothing is left. */
export function nameToSlug(name: string, fallback: string): string {
  const slug = name
    .toLowerCase()
    .replace(/[äöüßæøåœðþł]/g, letter => LETTERS[letter]!)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  return slug === '' ? fallback : slug;
}

/** The name itself, or with the first number that nobody has. */
export function freeName(name: string, isTaken: (name: string) => boolean): string {
  if (!isTaken(name)) return name;
  let n = 2;
  while (isTaken(`${name}-${n}`)) n++;
  return `${name}-${n}`;
}

/** A log's own name made harmless: its ending kept, the rest as a slug. */
export function logFileName(name: string): { readonly stem: string; readonly ending: string } {
  const bare = name.replace(/^.*[/\\]/, '');
  const ending = /\.([a-zA-Z0-9]{1,8})$/.exec(bare)?.[1]?.toLowerCase() ?? 'log';
  return { stem: nameToSlug(bare.replace(/\.[^.]*$/, ''), 'log'), ending };
}
