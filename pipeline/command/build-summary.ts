/** What a build came to, for the person. */

export interface SiteCounts {
  /** Of the publication. */
  readonly name: string;
  readonly tests: readonly string[];
  readonly attempts: number;
  readonly kept: number;
  readonly pages: number;
  readonly figures: number;
  readonly tables: number;
  readonly lowerThirds: number;
  readonly frameSizes: number;
}

/** @param how such as `Made in 12.0 s` */
export function buildSummary(counts: SiteCounts, out: string, how: string): string {
  const { name, tests, attempts, kept, pages, figures, tables, lowerThirds, frameSizes } = counts;
  return [
    `${name}: ${tests.length} tests, ${attempts} attempts (${kept} kept, ${attempts - kept} set aside).`,
    `${how}:`,
    `  ${out}/               the site, ${pages} pages; start at ${out}/index.html`,
    `  ${out}/press/<test>/  ${figures} figures, ${tables} tables, ${lowerThirds} lower thirds in ${frameSizes} ${frameSizes === 1 ? 'size' : 'sizes'}, data`,
    ...tests.map(test => `  ${out}/tests/${test}/`),
    'Look at it: npm run preview',
    '',
  ].join('\n');
}
