import { mkdir, mkdtemp, rm, symlink, truncate, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readContentFolder, readContentFolderWithProblems } from '../../pipeline/content/read-folder.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { contentFiles } from './valid.ts';

let root: string;
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'content-'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

async function write(path: string, bytes: Uint8Array | string): Promise<void> {
  await mkdir(dirname(join(root, path)), { recursive: true });
  await writeFile(join(root, path), bytes);
}

describe('the content folder', () => {
  it('is read whole, by paths with forward slashes, bytes unchanged', async () => {
    const files = contentFiles();
    for (const [path, bytes] of files) await write(path, bytes);
    await write('content/.hidden/secret.yaml', 'x');
    await write('content/schema/test.json', '{}');
    await write('elsewhere.yaml', 'x');
    expect(new Map([...(await readContentFolder(root))].sort())).toEqual(new Map([...files].sort()));
  });

  it('takes no links, to files or to folders, and says so beside what it reads', async () => {
    await write('outside.yaml', 'secret: 1');
    await write('content/house.yaml', 'name: x');
    await mkdir(join(root, 'content/cars'));
    await symlink(join(root, 'outside.yaml'), join(root, 'content/cars/outside.yaml'));
    await symlink(root, join(root, 'content/tests'));
    const { files, problems } = await readContentFolderWithProblems(root);
    expect([...files.keys()]).toEqual(['content/house.yaml']);
    expect(problems.map(({ id, where }) => [id, where?.file])).toEqual([
      ['content-link-refused', 'content/cars/outside.yaml'],
      ['content-link-refused', 'content/tests'],
    ]);
    await expect(readContentFolder(root)).rejects.toThrow(ProblemError);
  });

  it('is not followed where it is a link itself', async () => {
    await mkdir(join(root, 'other'));
    await writeFile(join(root, 'other/house.yaml'), 'name: x');
    await symlink(join(root, 'other'), join(root, 'content'));
    const { files, problems } = await readContentFolderWithProblems(root);
    expect([files.size, problems[0]?.id]).toEqual([0, 'content-link-refused']);
  });

  it('leaves out files beyond the limits without reading them', async () => {
    await write('content/house.yaml', '');
    await truncate(join(root, 'content/house.yaml'), 2 * 1024 * 1024 + 1);
    await write('content/tests/x/logs/long.csv', '');
    await truncate(join(root, 'content/tests/x/logs/long.csv'), 512 * 1024 * 1024 + 1);
    const { files, problems } = await readContentFolderWithProblems(root);
    expect([files.size, problems.map(p => p.id)]).toEqual([0, ['content-too-large', 'content-too-large']]);
  });

  it('that is not there is one problem with what to do', async () => {
    const { problems } = await readContentFolderWithProblems(join(root, 'nowhere'));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ id: 'content-no-folder' });
    expect(JSON.stringify(problems)).not.toContain(root);
  });

  it('gives a file that did not change its very bytes again, and reads one that did, whatever its times say', async () => {
    const long = new Date('2020-01-01');
    await write('content/house.yaml', 'name: x');
    await write('content/methodology.md', 'abc');
    const before = new Map();
    // A file of this moment may change once more without its time moving on: it is not relied upon.
    await readContentFolderWithProblems(root, before);
    expect(before.size).toBe(0);
    vi.useFakeTimers({ now: Date.now() + 60_000, toFake: ['Date'] });
    try {
      const first = (await readContentFolderWithProblems(root, before)).files;
      await write('content/methodology.md', 'abd');
      await utimes(join(root, 'content/methodology.md'), long, long);
      const second = (await readContentFolderWithProblems(root, before)).files;
      expect(second.get('content/house.yaml')).toBe(first.get('content/house.yaml'));
      expect(new TextDecoder().decode(second.get('content/methodology.md'))).toBe('abd');
      await rm(join(root, 'content/methodology.md'));
      await readContentFolderWithProblems(root, before);
      expect([...before.keys()]).toEqual(['content/house.yaml']);
    } finally {
      vi.useRealTimers();
    }
  });
});
