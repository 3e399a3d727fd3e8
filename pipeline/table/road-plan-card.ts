/** A road plan as one HTML file for a card of DIN A6 or a phone: figures in front, assumptions on the back. */

import { escapeHtml } from '../escape-html.ts';
import { COLOUR } from '../look.ts';
import { planCaution } from '../result/caution.ts';
import type { House } from '../result/result.ts';
import type { RoadPlan } from '../result/road-plan.ts';
import { planAssumptions, planFinding, roadPlanTable } from './road-plan.ts';
import { roadPlanWords } from './words/road-plan.ts';

/** Alone in the file: no script, no font and no picture from elsewhere, so that it opens without a network. */
const STYLE = `
@page { size: 105mm 148mm; margin: 5mm }
* { box-sizing: border-box }
html { background: ${COLOUR.paper}; color: ${COLOUR.ink}; font: 3.1mm/1.3 "Source Sans 3", "Helvetica Neue", Arial, sans-serif }
body { width: 95mm; max-width: 100%; margin: 0 auto; padding: 3mm 0 }
h1 { margin: 0; font-size: 4.4mm; line-height: 1.15 }
p { margin: 1.2mm 0 }
.finding { font-weight: 600 }
.caution { border: 0.3mm solid ${COLOUR.accent}; padding: 1.2mm 1.6mm; font-size: 2.9mm }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums lining-nums }
caption { text-align: start; font-size: 2.9mm; padding-bottom: 1mm }
thead th { font-size: 2.7mm; font-weight: 400; line-height: 1.1; vertical-align: bottom; padding: 0 0 1mm 1.5mm; text-align: end }
tbody th, tbody td { font-size: 5.4mm; line-height: 1.2; padding: 0 0 0 1.5mm; text-align: end; border-top: 0.2mm solid ${COLOUR.hairline}; white-space: nowrap }
tbody th, tbody td.brake { font-weight: 700 }
tbody td.small { font-size: 3.2mm; color: ${COLOUR.muted} }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.5mm 2mm; margin: 1.5mm 0; font-size: 2.7mm }
dt { font-weight: 600 }
dd { margin: 0 }
.back { margin-top: 5mm }
p + p { margin-top: 0 }
.back p { font-size: 2.7mm; margin-top: 0.8mm }
.back h2 { margin: 0; font-size: 3.6mm }
@media screen and (max-width: 480px) { html { font-size: 15px } body { width: auto; padding: 12px } caption, thead th, dl, .caution, .back p { font-size: 13px } tbody th, tbody td { font-size: min(19px, 5vw); padding-left: 4px } tbody td.small { font-size: 13px } h1 { font-size: 20px } thead th { padding-left: 4px } }
@media print { html { background: #fff } body { padding: 0 } .back { break-before: page; margin: 0 } }
`;

/**
 * A complete document; the caution stands before the figures and every assumption after them. The same figures as
 * `roadPlanTable`, rounded there.
 */
export function planToHtmlCard(
  plan: RoadPlan,
  house: Pick<House, 'caution' | 'language' | 'name' | 'units'>,
): string {
  const table = roadPlanTable(plan, house);
  const heads = table.columns.map(
    ({ label, unit }) =>
      `<th scope="col">${escapeHtml(label)}${unit === undefined ? '' : `<br>${escapeHtml(unit)}`}</th>`,
  );
  const rows = table.rows.map(
    row =>
      `<tr>${row
        .map(({ text, header }, column) => {
          if (header === true) return `<th scope="row">${escapeHtml(text)}</th>`;
          const small = column === row.length - 1 || !/\d/.test(text);
          const kind = small ? ' class="small"' : column === 2 ? ' class="brake"' : '';
          return `<td${kind}>${escapeHtml(text)}</td>`;
        })
        .join('')}</tr>`,
  );
  const assumptions = planAssumptions(plan, house).map(
    ({ name, says }) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(says)}</dd>`,
  );
  const words = roadPlanWords(house);
  const title = words.title(plan.carName);
  return `<!doctype html>
<html lang="${escapeHtml(house.language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${escapeHtml(title)}</h1>
<p class="caution"><strong>${escapeHtml(words.caution)}</strong> ${escapeHtml(planCaution(house))}</p>
<p class="finding">${escapeHtml(planFinding(plan, house))}</p>
<table>
<caption>${escapeHtml(table.caption)}</caption>
<thead><tr>${heads.join('')}</tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
<section class="back">
<h2>${escapeHtml(words.whatItAssumes)}</h2>
<dl>
${assumptions.join('\n')}
</dl>
${table.notes.map(note => `<p>${escapeHtml(note)}</p>`).join('\n')}
${house.caution === undefined ? '' : `<p>${escapeHtml(house.caution)}</p>\n`}<p>${escapeHtml(house.name)}</p>
</section>
</main>
</body>
</html>
`;
}
