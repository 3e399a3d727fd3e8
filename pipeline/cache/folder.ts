/** Where things are kept: beside the publication, or in a folder that builds and machines share. */
import { join, resolve } from 'node:path';
import { openStore, type Store } from './store.ts';

/** Names the folder for every command and for the pages, where it is not the publication's own. */
export const CACHE_VARIABLE = 'EVENGROUND_CACHE';

/** Absolute; `root` is the publication's. */
function cacheFolder(root: string): string {
  const named = process.env[CACHE_VARIABLE];
  return named === undefined || named === '' ? join(root, '.evenground', 'cache') : resolve(root, named);
}

export const storeOf = (root: string): Store => openStore(cacheFolder(root));
