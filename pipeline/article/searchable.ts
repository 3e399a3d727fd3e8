/** What a text is searched by: lower case, accents left out, so that `cafe` finds `Café`. */
export function searchable(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
}
