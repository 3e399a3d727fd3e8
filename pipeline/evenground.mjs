#!/usr/bin/env node
// Plain JavaScript, so that a Node too old to read TypeScript still gets the remedy instead of a stack trace.
const major = Number(process.versions.node.split('.')[0]);
if (major < 24) {
  process.stderr.write(
    `evenground: this is Node ${process.versions.node}, and 24 or later is needed. ` +
      'Run it through npm (npm run evenground -- …) after `npm ci`, which brings Node 24 along; ' +
      'if npm was told to ignore install scripts, run `npm rebuild node` once.\n',
  );
  process.exit(2);
}
// Types are taken out of the modules and what is left is compiled once, for this process and those it starts.
const { enableCompileCache } = await import('node:module');
process.env.NODE_COMPILE_CACHE ??= '.evenground/compiled';
enableCompileCache?.();
// The desk's server finds modules in its own way, and once a day.
if (process.argv[2] !== 'desk') {
  const { rememberPlaces } = await import('./cache/module-places.ts');
  rememberPlaces(process.env.NODE_COMPILE_CACHE);
}
const { main } = await import('./cli.ts');
process.exitCode = await main(process.argv.slice(2));
