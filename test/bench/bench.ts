// Work of the product beside a plain way of doing the same, in one run: `npm run bench`.
// Ratios are what counts; milliseconds depend on the machine. The report is .evenground/bench.json.
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import sharp from 'sharp';
import { inferSchema, initParser } from 'udsv';
import * as vega from 'vega';
import { compile } from 'vega-lite';
import type { MadeFigure } from '../../pipeline/figure/figure.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { renderFigure } from '../../pipeline/figure/render.ts';
import { vegaConfig } from '../../pipeline/figure/theme.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { runningContent } from '../../pipeline/sequence/content.ts';
import { createPainter } from '../../pipeline/sequence/painter.ts';
import { frameValues } from '../../pipeline/sequence/plan.ts';
import { fitRunningPlate } from '../../pipeline/sequence/running-plate.ts';
import { launchBrowser } from '../browser/chromium.ts';
import { fixturePlan, HOUSE, TEST } from '../sequence/fixture.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';
import { csvWays, largeCsv, largeNmea, nmeaWays } from './logs.ts';
import { largestPaints } from './page.ts';
import { sideBySide, type Timing } from './side-by-side.ts';

interface Bench {
  readonly name: string;
  readonly timings: readonly Timing[];
  /** What one run of each way handles. */
  readonly of: string;
}

const benches: Bench[] = [];
const report = (name: string, of: string, timings: readonly Timing[]): void => {
  benches.push({ name, of, timings });
  process.stdout.write(`\n${name} (${of})\n`);
  for (const { name: way, ms, ratioToFirst } of timings) {
    process.stdout.write(
      `  ${way.padEnd(44)} ${ms.toFixed(1).padStart(9)} ms  × ${ratioToFirst.toFixed(2)}\n`,
    );
  }
};

const lettering = await loadLettering();

// A day's log: an hour at 25 Hz with about twenty starts.
const day = simulateDay({ seed: 7, car: AUTOMATIC_ESTATE, rateHz: 25, noiseMps: 0.02, runs: 20, aborted: 2 });
const bytes = writeCsv(day.samples);
const log = readLog('day.csv', bytes);
const minutes = ((log.timeS.at(-1) ?? 0) / 60).toFixed(0);
report(
  "A day's log",
  `${minutes} min at 25 Hz, ${measureLog(log).measurements.length} runs, ${(bytes.length / 1e6).toFixed(1)} MB`,
  await sideBySide(
    [
      { name: 'read and measured', run: () => measureLog(readLog('day.csv', bytes)) },
      { name: 'read only', run: () => readLog('day.csv', bytes) },
      {
        name: 'split into columns by a general parser',
        run: () => splitByUdsv(new TextDecoder().decode(bytes)),
      },
    ],
    5,
  ),
);

function splitByUdsv(text: string): unknown {
  return initParser(inferSchema(text)).typedCols(text);
}

// Large logs beside general parsers.
const ROWS = 360_000;
report('A large table', `${ROWS} rows of 8 columns`, await sideBySide(csvWays(largeCsv(ROWS)), 3));
const SENTENCES = 1_000_000;
report('Many sentences', `${SENTENCES} of NMEA 0183`, await sideBySide(nmeaWays(largeNmea(SENTENCES)), 3));

// Charts: the demo's figures, ours with exact text, composed, with outlines; and the same plots by plain vega.
const publication = await loadPublication(process.cwd());
const figures = publication.tests.slice(0, 1).flatMap(test =>
  Object.values(FIGURES)
    .map(figure =>
      figure.make(
        test,
        publication.house,
        { startRule: publication.house.headline_start_rule },
        publication.tests.slice(1),
      ),
    )
    .filter((made): made is MadeFigure => !('reason' in made)),
);
report(
  'Charts',
  `${figures.length} figures, wide layout`,
  await sideBySide(
    [
      {
        name: 'ours: SVG with text and SVG outlined',
        run: async () => {
          for (const made of figures) await renderFigure(made, 'wide', lettering);
        },
      },
      {
        name: 'plain compile and render to SVG',
        run: async () => {
          for (const { spec } of figures) {
            const compiled = compile(spec.wide, { config: vegaConfig('wide') }).spec;
            const view = new vega.View(vega.parse(compiled), { renderer: 'none' });
            await view.toSVG();
            view.finalize();
          }
        },
      },
    ],
    3,
  ),
);

// Frames: ours, and a headless browser's transparent screenshots of a picture as simple.
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
// The page of a test, where the site was built.
if (existsSync('dist/tests'))
  report('Largest contentful paint', 'the page of a test on loopback', await largestPaints('dist', browser));
else process.stdout.write('\nLargest contentful paint: no dist/, run `npm run build` first\n');
await browser.close();

const machine = {
  node: process.version,
  cores: cpus().length,
  memoryGb: Math.round(totalmem() / 2 ** 30),
  sharp: sharp.versions,
};
const peakMb = Math.round(process.resourceUsage().maxRSS / 1024);
mkdirSync('.evenground', { recursive: true });
writeFileSync('.evenground/bench.json', `${JSON.stringify({ machine, peakMb, benches }, null, 2)}\n`);
process.stdout.write(`\nPeak memory of this process ${peakMb} MB. Report: .evenground/bench.json\n`);
