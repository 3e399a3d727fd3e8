import { readFileSync } from 'node:fs';
import { defineConfig } from 'astro/config';
import { parse } from 'yaml';

/**
 * Address of the site as content/house.yaml says. A fault there is told by `evenground check`, with its line;
 * here it only means that no address is known.
 */
function siteAddress() {
  try {
    return new URL(parse(readFileSync('content/house.yaml', 'utf8')).site);
  } catch {
    return undefined;
  }
}

const address = siteAddress();

export default defineConfig({
  srcDir: './site',
  outDir: './dist',
  publicDir: './.evenground/public',
  cacheDir: './.evenground/astro',
  ...(address === undefined ? {} : { site: address.origin, base: address.pathname }),
  trailingSlash: 'always',
  // Files only, so that the pages' policy can forbid everything inline.
  build: { format: 'directory', inlineStylesheets: 'never', assets: 'assets' },
  devToolbar: { enabled: false },
  vite: {
    build: { assetsInlineLimit: 0 },
    // What builds keep and make: thousands of files that no page being edited is made from.
    server: { watch: { ignored: ['**/.evenground/**', '**/dist/**'] } },
  },
});
