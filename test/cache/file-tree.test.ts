import { mkdirSync, mkdtempSync, rmSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bytesDigest } from '../../pipeline/cache/digest.ts';
import { seenFiles } from '../../pipeline/cache/file-tree.ts';

let root: string;
const LONG_AGO_S = 1_700_000_000;
const put = (path: string, text: string, changedS = LONG_AGO_S): void => {
  writeFileSync(join(root, path), text);
  utimesSync(join(root, path), changedS, changedS);
};
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-tree-'));
  mkdirSync(join(root, 'in', 'deep'), { recursive: true });
  put('in/a.txt', 'a');
  put('in/deep/b.txt', 'b');
  put('in/.hidden', 'h');
});
afterEach(() => rmSync(root, { recursive: true }));

describe('files that were seen', () => {
  const digests = (before = {}) =>
    Object.entries(seenFiles(root, ['in', 'absent'], before)).map(([path, [, , sha256]]) => [path, sha256]);

  it('are told by their content, hidden ones left out', () => {
    expect(digests()).toEqual([
      ['in/a.txt', bytesDigest('a')],
      ['in/deep/b.txt', bytesDigest('b')],
    ]);
  });

  it('are not read again while size and time are the same', () => {
    const seen = seenFiles(root, ['in']);
    put('in/a.txt', 'z');
    expect(seenFiles(root, ['in'], seen)['in/a.txt']?.[2]).toBe(bytesDigest('a'));
  });

  it('are read again where the time differs, and are the same where the content is', () => {
    const before = digests();
    const seen = seenFiles(root, ['in']);
    put('in/a.txt', 'a', LONG_AGO_S + 5);
    expect(digests(seen)).toEqual(before);
    put('in/a.txt', 'z', LONG_AGO_S + 9);
    expect(digests(seen)).not.toEqual(before);
  });

  it('are read again where they were changed a moment before they were seen', () => {
    const now = Math.floor(Date.now() / 1000);
    put('in/a.txt', 'a', now);
    const seen = seenFiles(root, ['in']);
    put('in/a.txt', 'z', now);
    expect(seenFiles(root, ['in'], seen)['in/a.txt']?.[2]).toBe(bytesDigest('z'));
  });

  it('may be links, which are not followed', () => {
    symlinkSync('/nowhere-at-all', join(root, 'in', 'link'));
    expect(digests().map(([path]) => path)).toContain('in/link');
  });
});
