/** Makes the pages that are wanted into the folder named: a process of its own, whose memory goes with it. */
import { join } from 'node:path';
import { build } from 'astro';

const root = process.cwd();
const outDir = join(root, process.argv[2]!);
// Nobody is left to take the pages once the build that asked is gone.
process.on('disconnect', () => process.exit(1));
// What is no page is in its place already.
await build({ root, outDir, publicDir: join(outDir, 'no-such-folder'), logLevel: 'error' });
process.exit(0);
