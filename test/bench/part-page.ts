// When the largest part of a test's page is seen, where the site was built: a part of `npm run bench`.
import { existsSync } from 'node:fs';
import { launchBrowser } from '../browser/chromium.ts';
import { largestPaints } from './page.ts';
import { report, reportPeak } from './part.ts';

if (existsSync('dist/tests')) {
  const browser = await launchBrowser();
  report('Largest contentful paint', 'the page of a test on loopback', await largestPaints('dist', browser));
  await browser.close();
} else {
  process.stdout.write('\nLargest contentful paint: no dist/, run `npm run build` first\n');
}
reportPeak();
