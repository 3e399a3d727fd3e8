import { beforeAll, describe, expect, it } from 'vitest';
import type { PressFigure, PressTable } from '../../pipeline/press/manifest.ts';
import { articlePiece, pressArticle } from '../../pipeline/press/press-article.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { demoPublication } from '../demo.ts';

let publication: Publication;
let test: TestResult;
beforeAll(async () => {
  publication = await demoPublication();
  test = {
    ...publication.tests[0]!,
    articleMarkdown:
      'It took :number{of=0-100-kmh}, as [the rules](/methodology/) say.\n\n::figure{show=braking}\n\n::table{show=splits}',
  };
});

const picture = (path: string) => ({ path, widthPx: 760, heightPx: 400 });
const figures = (): PressFigure[] => [
  {
    kind: 'braking',
    key: 'braking first-movement',
    number: 1,
    files: {
      narrow: picture(`press/${test.id}/figures/braking-narrow.svg`),
      wide: picture(`press/${test.id}/figures/braking-wide.svg`),
    },
    png: picture(`press/${test.id}/figures/braking-wide.png`),
    pdf: `press/${test.id}/figures/braking.pdf`,
    snippet: `press/${test.id}/figures/braking.html`,
    title: 'It stops',
    caption: 'Speed over distance',
    altText: 'A line',
    tableHtml: '<table></table>',
  },
];
const tables: readonly PressTable[] = [{ kind: 'splits', caption: 'Splits', html: '<table></table>' }];

describe('the article for another publishing system', () => {
  it('has its notes under it, each leading to its rule on the publication’s own pages', () => {
    const html = articlePiece(test, publication, { figures: figures(), tables });
    const site = publication.house.site.replace(/\/$/, '');
    expect(html).toContain('<h2 id="numbers">Numbers on this page</h2>');
    expect(html).toContain('id="number-1"');
    expect(html).toContain(`href="${site}/methodology/#speed-splits"`);
    expect(html).toContain(`href="${site}/methodology/"`);
  });

  it('has whole figures, with addresses from the folder it lies in', () => {
    const html = articlePiece(test, publication, { figures: figures(), tables });
    expect(html).toContain('<figure class="plot" id="figure-1">');
    expect(html).toContain('srcset="figures/braking-narrow.svg" width="760" height="400"');
    expect(html).toContain('src="figures/braking-wide.svg"');
    expect(html).not.toContain(`press/${test.id}`);
    expect(html).toContain('<div class="table-block" id="table-splits">');
  });

  it('without numbers has no heading for them', () => {
    const plain = { ...test, articleMarkdown: 'Nothing measured.' };
    expect(articlePiece(plain, publication, { figures: [], tables: [] })).toBe('<p>Nothing measured.</p>');
  });

  it('tells a figure that the folder lacks', () => {
    const { problems } = pressArticle(
      test,
      publication,
      { figures: figures().map(figure => ({ ...figure, key: 'braking one-foot-rollout' })), tables },
      { file: path => path, page: path => path },
    );
    expect(problems.map(({ id }) => id)).toEqual(['article.figure-not-made']);
  });
});
