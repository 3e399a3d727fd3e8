// The desk in a real browser with a log of 100,000 readings: `node test/bench/desk.ts`.
// Dropped to seen, and the pace of pictures while the strip is moved and looked at more closely.
import type { Page } from 'playwright-core';
import { launchBrowser } from '../browser/chromium.ts';
import { startDesk } from '../browser/desk-server.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';

const READINGS = 100_000;
const ROUNDS = 5;

/** A day at 25 Hz, cut after so many readings. */
function dayLog(): string {
  const { samples } = simulateDay({
    seed: 7,
    car: AUTOMATIC_ESTATE,
    rateHz: 25,
    noiseMps: 0.02,
    runs: 24,
    aborted: 2,
  });
  const text = Buffer.from(writeCsv(samples, { time: 'iso', startMs: Date.UTC(2026, 4, 12, 9) })).toString();
  const lines = text.split('\n').slice(0, READINGS + 1);
  if (lines.length <= READINGS) throw new Error(`The day has only ${lines.length - 1} readings.`);
  return `${lines.join('\n')}\n`;
}

interface Dropped {
  /** Until its speed is drawn, ms. */
  readonly seen: number;
  /** Until its runs are listed too, ms. */
  readonly measured: number;
}

/** Drops the log over the page. */
async function dropped(page: Page, text: string, name: string): Promise<Dropped> {
  await page.evaluate(
    ([content, fileName]) => {
      performance.clearMarks('strip-drawn');
      const held = new DataTransfer();
      held.items.add(new File([content], fileName));
      performance.mark('dropped');
      document.body.dispatchEvent(
        new DragEvent('drop', { dataTransfer: held, bubbles: true, cancelable: true }),
      );
    },
    [text, name] as const,
  );
  const drawn = await page.waitForFunction(
    () => performance.getEntriesByName('strip-drawn').at(-1)?.startTime,
  );
  const seenAt = (await drawn.jsonValue())!;
  const measured = await page.waitForFunction(
    () => document.querySelectorAll('table.runs tbody tr').length > 20 && performance.now(),
    undefined,
    { polling: 'raf' },
  );
  const measuredAt = Number(await measured.jsonValue());
  const begun = await page.evaluate(() => performance.getEntriesByName('dropped').at(-1)!.startTime);
  return { seen: seenAt - begun, measured: measuredAt - begun };
}

/** Gaps between pictures, ms, while the strip is dragged and zoomed through `steps` pictures. */
function pictures(page: Page, steps: number): Promise<number[]> {
  return page.evaluate(async count => {
    const over = document.querySelector<HTMLElement>('.u-over')!;
    const { left, top, width } = over.getBoundingClientRect();
    const at = (x: number): PointerEventInit => ({
      pointerId: 1,
      button: 0,
      clientX: left + x,
      clientY: top + 20,
      bubbles: true,
    });
    over.setPointerCapture = () => {};
    for (let i = 0; i < 3; i++) {
      over.dispatchEvent(new WheelEvent('wheel', { ctrlKey: true, deltaY: -200, clientX: left + width / 2 }));
    }
    over.dispatchEvent(new PointerEvent('pointerdown', at(width / 2)));
    const gaps: number[] = [];
    let before = await new Promise<number>(requestAnimationFrame);
    for (let i = 1; i <= count; i++) {
      over.dispatchEvent(new PointerEvent('pointermove', at(width / 2 + Math.sin(i / 12) * (width / 3))));
      if (i % 10 === 0) {
        const deltaY = i % 20 === 0 ? 40 : -40;
        over.dispatchEvent(new WheelEvent('wheel', { ctrlKey: true, deltaY, clientX: left + width / 2 }));
      }
      const now = await new Promise<number>(requestAnimationFrame);
      gaps.push(now - before);
      before = now;
    }
    over.dispatchEvent(new PointerEvent('pointerup', at(width / 2)));
    return gaps;
  }, steps);
}

const at = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;

const text = dayLog();
const desk = await startDesk();
const browser = await launchBrowser();
try {
  const page = await browser.newPage({ locale: 'en-GB', viewport: { width: 1366, height: 768 } });
  await page.goto(desk.address);
  const seen: number[] = [];
  const measured: number[] = [];
  for (let round = 0; round <= ROUNDS; round++) {
    await page.evaluate(() => {
      location.hash = '#/new';
    });
    await page.getByLabel('Car', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('Road', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('Title of the article').fill(`Bench ${round}`);
    await page.getByLabel('Title of the article').press('Enter');
    await page.getByRole('link', { name: 'Runs' }).first().click();
    await page.getByText('Runs are found as soon as').waitFor();
    const ms = await dropped(page, text, `day-${round}.csv`);
    // The first is the server's first log of all, with everything still to be loaded.
    if (round === 0) {
      process.stdout.write(`first log after the start of the desk: seen after ${ms.seen.toFixed(0)} ms\n`);
      continue;
    }
    seen.push(ms.seen);
    measured.push(ms.measured);
  }
  seen.sort((a, b) => a - b);
  measured.sort((a, b) => a - b);
  process.stdout.write(
    `${READINGS} readings, ${(text.length / 1e6).toFixed(1)} MB: dropped to strip drawn, median of ${ROUNDS}: ` +
      `${at(seen, 0.5).toFixed(0)} ms, slowest ${seen.at(-1)!.toFixed(0)} ms; its runs listed, median ` +
      `${at(measured, 0.5).toFixed(0)} ms, slowest ${measured.at(-1)!.toFixed(0)} ms\n`,
  );
  const gaps = (await pictures(page, 240)).sort((a, b) => a - b);
  process.stdout.write(
    `moving and zooming, 240 pictures: median ${at(gaps, 0.5).toFixed(1)} ms, 95 % under ${at(gaps, 0.95).toFixed(1)} ms, ` +
      `slowest ${gaps.at(-1)!.toFixed(1)} ms apart\n`,
  );
} finally {
  await browser.close();
  await desk.stop();
}
