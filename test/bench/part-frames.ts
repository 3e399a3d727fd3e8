// Frames of a running clock, beside a headless browser's transparent screenshots of a picture as simple: a part of
// `npm run bench`.
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import { runningContent } from '../../pipeline/sequence/content.ts';
import { createPainter } from '../../pipeline/sequence/painter.ts';
import { frameValues } from '../../pipeline/sequence/plan.ts';
import { fitRunningPlate } from '../../pipeline/sequence/running-plate.ts';
import { launchBrowser } from '../browser/chromium.ts';
import { fixturePlan, HOUSE, TEST } from '../sequence/fixture.ts';
import { report, reportPeak } from './part.ts';
import { sideBySide } from './side-by-side.ts';

const lettering = await loadLettering();
const plan = fixturePlan();
const browser = await launchBrowser();
for (const [widthPx, heightPx] of [
  [1920, 1080],
  [3840, 2160],
] as const) {
  const size = { name: `${widthPx}x${heightPx}`, widthPx, heightPx };
  const painter = await createPainter(
    plan,
    fitRunningPlate(runningContent(plan, TEST, HOUSE), size, lettering),
    size,
    lettering,
  );
  const values = frameValues(plan, 'en');
  const page = await browser.newPage({ viewport: { width: widthPx, height: heightPx }, locale: 'en-GB' });
  await page.setContent(
    '<body style="margin:0"><div id="plate" style="position:absolute;left:5%;bottom:5%;width:40%;padding:2%;background:#fbf9f4;font:600 5vh serif"></div>',
  );
  let frame = plan.firstFrame;
  const next = (): number => {
    frame = frame >= plan.lastFrame ? plan.firstFrame : frame + 1;
    return frame;
  };
  const frames = 30;
  report(
    `Frames ${size.name}`,
    `${frames} frames to PNG bytes`,
    await sideBySide(
      [
        {
          name: 'ours: only the changed rows compressed',
          run: async () => {
            for (let i = 0; i < frames; i++) await painter.png(values(next()));
          },
        },
        {
          name: 'headless browser, transparent screenshots',
          run: async () => {
            for (let i = 0; i < frames; i++) {
              await page.evaluate(
                text => {
                  document.getElementById('plate')!.textContent = text;
                },
                `${(next() / 25).toFixed(2)} s`,
              );
              await page.screenshot({ omitBackground: true });
            }
          },
        },
      ],
      3,
    ),
  );
  await page.close();
}
await browser.close();
reportPeak();
