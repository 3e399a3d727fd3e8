/**
 * A real browser for the tests, without installing anything on the machine.
 *
 * The packed Chromium runs on 64-bit Linux. Elsewhere the reader's own Chrome is used, or the browser whose
 * path EVENGROUND_CHROME gives.
 */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type Browser, chromium, type LaunchOptions } from 'playwright-core';

const require = createRequire(import.meta.url);
const PACKAGE = dirname(dirname(require.resolve('@sparticuz/chromium')));
const LIBRARY_FOLDERS = [
  '/lib/x86_64-linux-gnu',
  '/usr/lib/x86_64-linux-gnu',
  '/usr/lib64',
  '/lib64',
  '/usr/lib',
];

/** @returns a browser to be closed by the caller */
export async function launchBrowser(): Promise<Browser> {
  const own = process.env.EVENGROUND_CHROME;
  if (own !== undefined) return chromium.launch({ executablePath: own });
  if (process.platform !== 'linux' || process.arch !== 'x64') return chromium.launch({ channel: 'chrome' });
  return chromium.launch(await packedChromium());
}

async function packedChromium(): Promise<LaunchOptions> {
  const { version } = JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8')) as { version: string };
  // A folder for each version: the package takes any binary it finds for its own, however old.
  const folder = join(tmpdir(), `evenground-chromium-${version}`);
  if (!existsSync(folder)) await unpackInto(folder);
  const lacksLibraries = !LIBRARY_FOLDERS.some(path => existsSync(join(path, 'libnss3.so')));
  const lacksFonts = !existsSync('/etc/fonts/fonts.conf');
  return {
    executablePath: join(folder, 'chromium'),
    // Only what a container needs; the package's own list also switches off web security, which would hide faults.
    args: ['--no-sandbox', '--font-render-hinting=none', '--disable-gpu'],
    env: {
      ...(process.env as Record<string, string>),
      ...(lacksLibraries ? { LD_LIBRARY_PATH: join(folder, 'al2023', 'lib') } : {}),
      ...(lacksFonts ? { FONTCONFIG_PATH: join(folder, 'fonts') } : {}),
    },
  };
}

/** Unpacks beside the place and moves it there whole, so that a broken run leaves nothing half done. */
async function unpackInto(folder: string): Promise<void> {
  const staging = `${folder}.unfinished-${process.pid}`;
  mkdirSync(staging, { recursive: true });
  const before = process.env.TMPDIR;
  process.env.TMPDIR = staging;
  try {
    const packed = await import('@sparticuz/chromium');
    await packed.default.executablePath();
    await packed.inflate(join(PACKAGE, 'bin', 'al2023.tar.br'));
    renameSync(staging, folder);
  } catch (error) {
    // Another test file may have unpacked the same at the same time, and been first.
    if (!existsSync(folder)) throw error;
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
    rmSync(staging, { recursive: true, force: true });
  }
}
