import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { testSchema } from '../../pipeline/content/schema.ts';
import { writeWhole } from '../../pipeline/press/whole.ts';
import { breaches } from './axe.ts';
import { launchBrowser } from './chromium.ts';
import { type CardFile, threeLogs } from './desk-day.ts';
import { type RunningDesk, startDesk } from './desk-server.ts';
import { beyondEdge } from './visit.ts';

let desk: RunningDesk;
let browser: Browser;
let context: BrowserContext;
let page: Page;
/** Console errors, exceptions, and requests to anywhere but this machine. */
const faults: string[] = [];
/** Of the test put together below. */
let testId: string;
let logs: readonly CardFile[];

beforeAll(async () => {
  logs = threeLogs();
  [desk, browser] = await Promise.all([startDesk(), launchBrowser()]);
  context = await browser.newContext({
    viewport: { width: 1366, height: 768 },
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    reducedMotion: 'reduce',
    acceptDownloads: true,
  });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('pageerror', error => faults.push(String(error)));
  page.on('console', message => {
    if (message.type() === 'error') faults.push(`${message.text()} ${message.location().url}`);
  });
  page.on('request', request => {
    const { protocol, hostname } = new URL(request.url());
    if (/^(https?|wss?):$/.test(protocol) && hostname !== '127.0.0.1') faults.push(request.url());
  });
});

afterAll(async () => {
  await browser?.close();
  await desk?.stop();
});

/** A busy machine takes its time over a day's logs. */
const PATIENT = { timeout: 10_000 };

/**
 * By another program, which puts the whole file in its place: the desk, asked in the instant in which a file is empty,
 * says that there is no such car.
 */
const writtenElsewhere = writeWhole;

const actions: string[] = [];
const typed: string[] = [];

/** One thing a person does: a click, a choice, a drop, or keys struck one after another. */
async function act(what: string, does: () => Promise<unknown>): Promise<void> {
  actions.push(what);
  await does();
}

const click = (name: string | RegExp, role: 'button' | 'link' = 'button') =>
  act(`click ${name}`, () => page.getByRole(role, { name }).first().click());

const type = (label: string | RegExp, text: string, then?: string) =>
  act(`type ${text}`, async () => {
    typed.push(text);
    const field = page.getByLabel(label).first();
    await field.fill(text);
    if (then !== undefined) await field.press(then);
  });

const choose = (label: string, option: string) =>
  act(`choose ${option}`, () => page.getByLabel(label, { exact: true }).selectOption({ label: option }));

/** Files from the machine let go over the page. */
const drop = (files: readonly CardFile[]) =>
  act(`drop ${files.length} logs`, async () => {
    const transfer = await page.evaluateHandle(cards => {
      const held = new DataTransfer();
      for (const { name, base64 } of cards) {
        const bytes = Uint8Array.from(atob(base64), character => character.charCodeAt(0));
        held.items.add(new File([bytes], name));
      }
      return held;
    }, files);
    await page.dispatchEvent('main', 'drop', { dataTransfer: transfer });
  });

const saved = () => page.getByText(/^(Saved at|Everything is saved)/).waitFor();
const step = (name: string) =>
  page
    .getByRole('navigation', { name: 'Contents' })
    .getByRole('link')
    .filter({ has: page.getByText(name, { exact: true }) });
const testFile = () => join(desk.root, 'content/tests', testId, 'test.yaml');

describe('from nothing to lower thirds and a page', () => {
  it('takes under 25 actions, no file name and no YAML', async () => {
    await page.goto(desk.address);
    await click('Begin a new test', 'link');
    await choose('Car', 'Quillet Sorrel 58');
    await choose('Road', 'Ossenby Fen airfield');
    await type('Day of the test', '2026-05-12');
    await type('Title of the article', 'Three cards, one day', 'Enter');
    await type('One or two sentences under the title', 'What came off three cards.');
    await type('Car, fuel, people and gear together', '1735');
    await type('Who and what was in the car', 'driver and receiver');
    await type('Fuel or charge at the start', 'battery at 86 %');
    await type('Kind and size of the tyres', 'summer tyres, 205/55 R 17');
    await type('Kind of receiver and where it sat', '25 Hz satellite receiver, roof centre');
    // Before the first run the road plan is there, as an estimate that says how good it is.
    await page
      .locator('.plan')
      .getByText(/^Still estimated/)
      .waitFor();
    expect(await page.locator('.plan table').textContent()).toMatch(/±/);
    await drop(logs);
    for (const format of [/table of values/i, /receiver sentences/i, /a track/i]) {
      await page.locator('main').getByText(format).waitFor();
    }
    await act('open Runs', () => step('Runs').click());
    await click(/^Note \d+ runs from the clock/);
    await act('open Conditions', () => step('Conditions').click());
    await click('Add a reading');
    await type(/Temperature/, '12.3');
    await type(/Pressure/, '1017.5');
    await act('open Video', () => step('Video').click());
    // A person looks at the pictures first, which are there once all is saved.
    await saved();
    await click('Choose all');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      click('Export the chosen lower thirds'),
    ]);
    await act('open Article', () => step('Article').click());

    const frame = page.frameLocator('iframe');
    await frame.getByRole('heading', { name: 'Three cards, one day' }).first().waitFor();
    expect(actions.length, actions.join('\n')).toBeLessThan(25);
    expect(typed.filter(text => /\.(csv|nmea|gpx|txt|yaml|md|png)\b|[{}]|^\s*-|:\s/i.test(text))).toEqual([]);

    const pictures = unzipSync(readFileSync(await download.path()));
    const plates = Object.entries(pictures).filter(([name]) => name.endsWith('.png'));
    expect(plates.length).toBeGreaterThanOrEqual(4);
    for (const [name, bytes] of plates) {
      const { width, height, hasAlpha } = await sharp(bytes).metadata();
      expect([width, height, hasAlpha], name).toEqual([1920, 1080, true]);
    }
    testId = decodeURIComponent(new URL(page.url()).hash.split('/')[2]!);
  });

  it('leaves plain files that the program itself accepts, with the three logs as they came', async () => {
    const test = testSchema.parse(parse(readFileSync(testFile(), 'utf8')));
    expect(test.title).toBe('Three cards, one day');
    expect(test.time_zone).toBe('+01:00');
    expect(test.logs).toHaveLength(3);
    // The day was simulated with fourteen starts.
    expect(test.attempts.length).toBeGreaterThanOrEqual(13);
    const folder = join(desk.root, 'content/tests', testId, 'logs');
    const kept = readdirSync(folder).map(name => readFileSync(join(folder, name)).toString('base64'));
    expect(new Set(kept)).toEqual(new Set(logs.map(({ base64 }) => base64)));
  });

  it('puts a number into the article from the list, and the preview shows what the margin says', async () => {
    const margin = page.locator('.day dl > div', { hasText: '0–100 km/h' }).locator('dd').first();
    const [number] = /\d+\.\d+/.exec((await margin.textContent()) ?? '') ?? [];
    expect(number).toBeDefined();
    await page.getByRole('textbox', { name: 'Article' }).click();
    await page.keyboard.type('It needs ');
    await page.getByLabel('Find in the list').fill('0–100 km/h');
    await page.locator('.insert-list').getByRole('button').filter({ hasText: number! }).first().click();
    await page.keyboard.type(' to 100 km/h.');
    const file = join(desk.root, 'content/tests', testId, 'article.md');
    await expect
      .poll(() => readFileSync(file, 'utf8'), PATIENT)
      .toMatch(/It needs :number\{of=0-100-kmh[^}]*\} to 100 km\/h\./);
    await page.frameLocator('iframe').getByText('It needs').filter({ hasText: number! }).waitFor();
  });
});

describe('what was found may be judged', () => {
  it('a run is set aside with its reason by keyboard alone, and the results follow at once', async () => {
    await step('Runs').click();
    const first = page.locator('table.runs tbody tr').first();
    const before = await page.locator('.day').textContent();
    await first.getByRole('button', { name: /^Set aside/ }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('A hare on the concrete');
    await page.keyboard.press('Enter');
    await first.getByText('A hare on the concrete').waitFor();
    await saved();
    expect(readFileSync(testFile(), 'utf8')).toContain('A hare on the concrete');
    await expect.poll(() => page.locator('.day').textContent(), PATIENT).not.toBe(before);
  });

  it('the last change is taken back, and put in again', async () => {
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect
      .poll(() => readFileSync(testFile(), 'utf8'), PATIENT)
      .not.toContain('A hare on the concrete');
    await expect.poll(() => page.getByRole('button', { name: 'Redo' }).isEnabled(), PATIENT).toBe(true);
    await page.locator('main').focus();
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => readFileSync(testFile(), 'utf8'), PATIENT).toContain('A hare on the concrete');
  });

  it('a note is typed against the clock without touching the mouse', async () => {
    await page.locator('.note-form').first().getByLabel('Clock', { exact: true }).focus();
    await page.keyboard.type('1130');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Held');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Gusty');
    await page.keyboard.press('Enter');
    await expect.poll(() => readFileSync(testFile(), 'utf8'), PATIENT).toMatch(/11:30[\s\S]*Gusty/);
    const test = parse(readFileSync(testFile(), 'utf8')) as { attempts: unknown[] };
    expect(test.attempts.at(-1)).toEqual({ at: '11:30', launch: 'brake-hold', note: 'Gusty' });
    await page.getByRole('button', { name: /^Take this note out.*11:30/ }).click();
    await expect.poll(() => readFileSync(testFile(), 'utf8'), PATIENT).not.toContain('Gusty');
  });

  it('a file changed elsewhere meanwhile is not written over: both versions are shown', async () => {
    await step('Road and car').click();
    await saved();
    const tyres = page.getByLabel('Kind and size of the tyres');
    const onDisk = readFileSync(testFile(), 'utf8').replace(
      'driver and receiver',
      'driver, receiver and dog',
    );
    await tyres.fill('winter tyres');
    await writtenElsewhere(testFile(), onDisk);
    const clash = page.getByRole('region', { name: 'Changed elsewhere meanwhile' });
    await clash.waitFor();
    expect(await clash.textContent()).toContain('driver, receiver and dog');
    expect(await clash.textContent()).toContain('winter tyres');
    expect(readFileSync(testFile(), 'utf8')).toBe(onDisk);
    await clash.getByRole('button', { name: 'Put my changes on top of the file' }).click();
    await saved();
    const both = readFileSync(testFile(), 'utf8');
    expect(both).toContain('driver, receiver and dog');
    expect(both).toContain('winter tyres');
  });
});

describe('the road plan', () => {
  it('is a picture with the cautions in sight, worked out from the runs of the day', async () => {
    await step('Road and car').click();
    const plan = page.locator('.plan');
    await plan.getByText(/^Worked out from \d+ starts and \d+ stops? of this day/).waitFor();
    const figure = plan.locator('img.plan-figure');
    expect(await figure.getAttribute('alt')).toContain('not a clearance to drive');
    expect(await figure.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(300);
    const caution = plan.locator('.caution');
    await page.getByRole('link', { name: 'see which speeds this road has room for' }).click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('plan-title');
    expect(await caution.isVisible()).toBe(true);
    expect(await caution.textContent()).toContain('not a clearance to drive');
  });
});

describe('a car and a road', () => {
  const carFile = () => join(desk.root, 'content/cars/quillet-sorrel.yaml');
  const finding = () => page.locator('.plan .finding').textContent();

  it('are changed on the page of a test, in one place of their own files, and the plan follows', async () => {
    const before = readFileSync(carFile(), 'utf8');
    const plan = await finding();
    await page.locator('summary', { hasText: 'About the car: Quillet Sorrel 58' }).click();
    await page.getByLabel(/^Quillet Sorrel 58: Top speed as its maker states it/).fill('150');
    await expect.poll(() => readFileSync(carFile(), 'utf8'), PATIENT).toMatch(/top_speed_kmh: 150/);
    const lines = readFileSync(carFile(), 'utf8').split('\n');
    expect(before.split('\n').filter((line, i) => line !== lines[i])).toHaveLength(1);
    await expect.poll(finding, PATIENT).not.toBe(plan);
    await page.locator('summary', { hasText: 'About the road: Ossenby Fen airfield' }).click();
    await page.getByLabel(/^Ossenby Fen airfield: Length that can be driven/).fill('900');
    const road = join(desk.root, 'content/roads/ossenby-fen.yaml');
    await expect.poll(() => readFileSync(road, 'utf8'), PATIENT).toMatch(/length_m: 900\n/);
    await page.getByRole('button', { name: /^Take back the last change here.*About the road/ }).click();
    await expect.poll(() => readFileSync(road, 'utf8'), PATIENT).not.toMatch(/length_m: 900\n/);
  });

  it('say in plain words what cannot be saved, and save nothing of it', async () => {
    const before = readFileSync(carFile(), 'utf8');
    const mass = page.getByLabel(/^Quillet Sorrel 58: Mass as its maker states it/);
    const kept = await mass.inputValue();
    for (const [typedIn, says] of [
      ['heavy', 'Not saved: this is not a number.'],
      ['-3', 'Not saved: it must be more than 0.'],
      ['70000', 'Not saved: at most 60000 is possible here.'],
      ['', 'Not saved: it cannot be left empty.'],
    ] as const) {
      await mass.fill(typedIn);
      await page.locator('.facts-of').getByRole('alert').getByText(says).waitFor();
    }
    await mass.fill(kept);
    expect(readFileSync(carFile(), 'utf8')).toBe(before);
  });

  it('changed elsewhere meanwhile are not written over: both versions are shown', async () => {
    const onDisk = `${readFileSync(carFile(), 'utf8')}# from the brochure\n`;
    await page.getByLabel(/^Quillet Sorrel 58: Rated power/).fill('148');
    await writtenElsewhere(carFile(), onDisk);
    const clash = page.getByRole('region', { name: 'Changed elsewhere meanwhile: Quillet Sorrel 58' });
    await clash.waitFor();
    expect(await clash.textContent()).toContain('# from the brochure');
    expect(readFileSync(carFile(), 'utf8')).toBe(onDisk);
    await clash.getByRole('button', { name: 'Put my changes on top of the file' }).click();
    await expect
      .poll(() => readFileSync(carFile(), 'utf8'), PATIENT)
      .toMatch(/power_kw: 148\n[\s\S]*# from the brochure/);
    await saved();
  });
});

describe('a log whose columns cannot be told', () => {
  it('is asked about in plain words, with nothing taken for granted', async () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${(i / 10).toFixed(1)},${Math.max(0, i - 150)},19.5`);
    const text = ['time_s,ch2,ch3', ...rows].join('\n');
    await drop([{ name: 'odd.csv', base64: Buffer.from(text).toString('base64') }]);
    const asked = page.getByRole('region', { name: 'odd.csv: Which column is the speed?' });
    await asked.waitFor();
    const confirm = asked.getByRole('button', { name: 'That is it' });
    expect(await asked.getByRole('radio', { checked: true }).count()).toBe(0);
    expect(await confirm.isDisabled()).toBe(true);
    await asked.getByRole('radio', { name: /ch2.*such as 0; 0; 0; 75/ }).check();
    expect(await confirm.isDisabled(), 'the unit is asked for too').toBe(true);
    await asked.getByRole('radio', { name: /miles an hour/ }).check();
    await confirm.click();
    const log = page.getByRole('article', { name: 'odd.csv' });
    await log.getByText(/300 readings, 10 a second/).waitFor();
    await saved();
    const { logs: named } = parse(readFileSync(testFile(), 'utf8')) as { logs: readonly object[] };
    expect(named.at(-1)).toEqual({ file: 'logs/odd.csv', columns: { speed: { name: 'ch2', unit: 'mph' } } });
    await log.getByRole('button', { name: /^Leave this log out.*odd\.csv/ }).click();
    await expect.poll(() => readFileSync(testFile(), 'utf8'), PATIENT).not.toContain('odd.csv');
  });
});

describe('what goes out', () => {
  it('a figure is saved as a picture in the shape that was chosen', async () => {
    await step('Figures').click();
    const first = page
      .locator('.pictures > li')
      .filter({ has: page.getByRole('combobox') })
      .first();
    await first.getByRole('combobox').selectOption({ label: 'square 1:1' });
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      first.getByRole('button', { name: /^Save picture/ }).click(),
    ]);
    const { width, height } = await sharp(await download.path()).metadata();
    expect(width).toBe(height);
    expect(download.suggestedFilename()).toMatch(/-square\.png$/);
  });

  it('is all of it in one file, once nothing stands against it', async () => {
    await step('Going out').click();
    await page.getByText('Nothing stands against it.').waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download', { timeout: 90_000 }),
      page.getByRole('button', { name: 'Export the press folder' }).click(),
    ]);
    const names = Object.keys(unzipSync(readFileSync(await download.path())));
    for (const part of [/results\.json$/, /article\.html$/, /overlays\/.*\.png$/, /figures\/.*\.svg$/])
      expect(names.filter(name => part.test(name)).length, String(part)).toBeGreaterThan(0);
  });

  it('is signed off after the person said that it was read, and its numbers are written down', async () => {
    const sign = page.getByRole('button', { name: 'Sign this test off' });
    expect(await sign.isDisabled()).toBe(true);
    await page.getByLabel('I have read the page as readers will see it.').check();
    await sign.click();
    await page.getByText(/^Signed off on \d{4}-\d\d-\d\d\.$/).waitFor();
    const record = join(desk.root, 'content/tests', testId, 'signed-off.json');
    const { numbers } = JSON.parse(readFileSync(record, 'utf8')) as {
      numbers: readonly { readonly key: string }[];
    };
    expect(numbers.some(({ key }) => key.includes('0-100-kmh'))).toBe(true);
    await step('Going out').getByText('signed off', { exact: true }).waitFor();
  });
});

const STEPS = ['road', 'logs', 'runs', 'conditions', 'figures', 'video', 'article', 'going-out'] as const;

async function onEveryStep(check: (at: string) => Promise<void>): Promise<void> {
  for (const at of ['', 'new', ...STEPS]) {
    await page.evaluate(
      hash => {
        location.hash = hash;
      },
      at === '' ? '#/' : at === 'new' ? '#/new' : `#/test/${encodeURIComponent(testId)}/${at}`,
    );
    await page.locator('main h1').waitFor();
    if (at === 'runs') await page.locator('.strip canvas').waitFor();
    await check(at);
  }
}

describe('every step', () => {
  it('fits a laptop, a tablet either way and a phone, without scrolling sideways', async () => {
    for (const [width, height] of [
      [1366, 768],
      [1024, 768],
      [768, 1024],
      [360, 740],
    ] as const) {
      await page.setViewportSize({ width, height });
      await onEveryStep(async at => {
        expect(await beyondEdge(page), `${at} at ${width} px`).toBe(0);
      });
    }
  });

  it('has targets of 44 px for fingers on a tablet', async () => {
    await page.setViewportSize({ width: 768, height: 1024 });
    await onEveryStep(async at => {
      const small = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLElement>('#desk :is(button, select, summary, .tick, a, input)')]
          .filter(element => element.checkVisibility() && !element.matches('.skip, .tick input'))
          .filter(element => element.getBoundingClientRect().height < 43.99)
          .map(element => `${element.outerHTML.slice(0, 120)} ${element.getBoundingClientRect().height}`),
      );
      expect(small, at).toEqual([]);
    });
  });

  it('passes axe', async () => {
    await page.setViewportSize({ width: 1366, height: 768 });
    await onEveryStep(async at => {
      // The preview is the readers' page, which has its own test: frames are left out, which legacy mode does.
      expect(await breaches(page), at).toEqual([]);
    });
  });

  it('is reached whole by the Tab key', async () => {
    await onEveryStep(async at => {
      const missed = await page.evaluate(async () => {
        const all = [
          ...document.querySelectorAll<HTMLElement>(
            '#desk :is(a[href], button:not(:disabled), select, textarea, summary, input, [tabindex="0"])',
          ),
        ].filter(element => element.checkVisibility());
        // Of a group of radio buttons, one takes the Tab key and the arrow keys reach the others.
        return all
          .filter(element => element.tabIndex < 0 && !element.matches('[type="radio"]'))
          .map(element => element.outerHTML.slice(0, 120));
      });
      expect(missed, at).toEqual([]);
      await page.evaluate(() => {
        document.body.tabIndex = -1;
        document.body.focus();
        document.body.removeAttribute('tabindex');
      });
      await page.keyboard.press('Tab');
      expect(await page.evaluate(() => document.activeElement?.className), at).toBe('skip');
    });
  });

  it('asked nothing of the network and raised no error', () => {
    // The browser itself reports the refusal that the two versions were made of.
    expect(faults.filter(fault => !/409 \(Conflict\)/.test(fault))).toEqual([]);
  });
});
