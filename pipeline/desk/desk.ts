/** What the desk knows at one moment: the content as it stands on the disk, a draft measured as far as it goes. */

import { testsBeside } from '../article/pair.ts';
import { type Content, contentFilesToContent, type TestFolder } from '../content/content.ts';
import { CONTENT_FOLDER, type ContentFiles, HOUSE_FILE, pathInFolder } from '../content/files.ts';
import { type ReadBefore, readContentFolderWithProblems } from '../content/read-folder.ts';
import { houseLogo, type ReadLogo } from '../overlay/logo.ts';
import { type Problem, ProblemError } from '../problem.ts';
import { nothingThere } from '../problems/desk.ts';
import type { AssembleTools } from '../result/assemble.ts';
import { contentToTests, newestFirst } from '../result/assemble.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { type Draft, draftOf } from './draft.ts';
import { rememberingTools } from './memo.ts';

/** Until house.yaml can be read, the desk speaks and counts by these. */
const PLAIN_HOUSE: House = {
  name: 'Evenground',
  site: 'https://example.org',
  language: 'en-GB',
  headline_start_rule: 'first-movement',
  licence: { name: 'not chosen yet', url: 'https://example.org' },
  launch_methods: [],
};

export interface Now {
  readonly files: ContentFiles;
  readonly content: Content;
  readonly house: House;
  /** Faults of all content, and of logs that were measured. */
  readonly problems: readonly Problem[];
}

export interface OpenTest {
  readonly id: string;
  readonly draft: Draft;
  /** Absent where there is no car or road to measure it with. */
  readonly result?: TestResult;
  readonly others: readonly TestResult[];
  readonly publication: Publication;
  /** Of this test alone. */
  readonly problems: readonly Problem[];
}

export class Desk {
  readonly root: string;
  readonly tools: AssembleTools = rememberingTools();
  private readonly before: ReadBefore = new Map();
  private readonly texts = new Map<string, Uint8Array>();
  private last: Now | undefined;
  private readonly opened = new WeakMap<Now, Map<string, OpenTest>>();
  /** Each test as it was last put together, and the files it was put together from. */
  private readonly assembled = new Map<string, Assembled>();

  private logo: { readonly from: readonly (Uint8Array | undefined)[]; readonly read: ReadLogo } | undefined;

  constructor(root: string) {
    this.root = root;
  }

  async now(): Promise<Now> {
    const { files: read, problems: unread } = await readContentFolderWithProblems(this.root, this.before);
    const files = this.asBefore(read);
    // Most requests come between two changes; what follows is the same for all of them.
    if (this.last !== undefined && unread.length === 0 && sameFiles(this.last.files, files)) return this.last;
    const content = contentFilesToContent(files);
    const logo = await this.logoOf(content, files);
    const house: House = {
      ...(content.house ?? PLAIN_HOUSE),
      ...(logo.picture === undefined ? {} : { logoPicture: logo.picture }),
    };
    const now = { files, content, house, problems: [...unread, ...content.problems, ...logo.problems] };
    this.last = unread.length === 0 ? now : undefined;
    return now;
  }

  /** Drawing it takes longer than all the rest of a small change: done again where it or the house changed. */
  private async logoOf({ house }: Content, files: ContentFiles): Promise<ReadLogo> {
    const written = house?.look?.logo;
    const picture = written === undefined ? undefined : pathInFolder(CONTENT_FOLDER, written);
    const from = [files.get(HOUSE_FILE), picture === undefined ? undefined : files.get(picture)];
    if (this.logo === undefined || this.logo.from.some((bytes, i) => bytes !== from[i]))
      this.logo = { from, read: await houseLogo(house, files) };
    return this.logo.read;
  }

  /** @throws ProblemError where there is no such test */
  open(now: Now, id: string): OpenTest {
    const known = this.opened.get(now) ?? new Map<string, OpenTest>();
    this.opened.set(now, known);
    const open = known.get(id) ?? this.put(now, id);
    known.set(id, open);
    return open;
  }

  private put({ files, content, house }: Now, id: string): OpenTest {
    const draft = draftOf(id, files, content);
    if (draft === undefined) throw new ProblemError(nothingThere('test', id));
    const others = content.tests
      .filter(test => test.id !== id)
      .flatMap(test => this.assemble(content, files, test).tests)
      .sort(newestFirst);
    const own =
      draft.folder && contentToTests({ ...content, tests: [draft.folder], problems: [] }, files, this.tools);
    const result = own?.tests[0];
    const tests = [...(result === undefined ? [] : [result]), ...others];
    const isOwn = ({ where }: Problem): boolean => where?.file.startsWith(`content/tests/${id}/`) === true;
    return {
      id,
      draft,
      ...(result === undefined ? {} : { result }),
      others: result === undefined ? [] : testsBeside(result, tests),
      publication: {
        house,
        cars: content.cars,
        roads: content.roads,
        tests,
        methodologyMarkdown: content.methodology,
        problems: [],
      },
      problems: [...content.problems.filter(isOwn), ...(own?.problems ?? [])],
    };
  }

  /** One test put together; as before where none of its files, nor a car, road or the house, changed since. */
  private assemble(content: Content, files: ContentFiles, test: TestFolder): Assembled['made'] {
    const folder = `content/tests/${test.id}/`;
    const from = new Map(
      [...files].filter(([path]) => path.startsWith(folder) || !path.startsWith('content/tests/')),
    );
    const before = this.assembled.get(test.id);
    if (before !== undefined && sameFiles(before.from, from)) return before.made;
    const made = contentToTests({ ...content, tests: [test], problems: [] }, files, this.tools);
    this.assembled.set(test.id, { from, made });
    return made;
  }

  /** The same bytes are the same object, so that nothing is hashed or measured twice. */
  private asBefore(files: ContentFiles): ContentFiles {
    const kept = new Map<string, Uint8Array>();
    for (const [path, bytes] of files) {
      const before = this.texts.get(path);
      kept.set(
        path,
        before === bytes || (before !== undefined && Buffer.compare(before, bytes) === 0) ? before : bytes,
      );
    }
    this.texts.clear();
    for (const [path, bytes] of kept) this.texts.set(path, bytes);
    return kept;
  }
}

interface Assembled {
  readonly from: ContentFiles;
  readonly made: ReturnType<typeof contentToTests>;
}

/** By identity: the same bytes are the same object here. */
const sameFiles = (a: ContentFiles, b: ContentFiles): boolean =>
  a.size === b.size && [...a].every(([path, bytes]) => b.get(path) === bytes);
