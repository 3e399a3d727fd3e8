/** The tool that puts faults into the code and asks the tests for them: what it changes, and that it changes nothing else. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { EQUIVALENT, isEquivalent } from './equivalent.ts';
import { mutantsOf, mutated } from './mutate.ts';
import { indexed, planFor } from './plan.ts';
import { Program } from './program.ts';
import { shareInterval, stratified } from './sample.ts';
import { collect } from './suite.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const changesOf = (source: string): string[] =>
  mutantsOf('one.ts', source).map(({ from, to }) => `${from} → ${to}`);

describe('mutants of a text', () => {
  it.each([
    ['const a = b + c;', ['b + c → (b) - (c)']],
    ["const a = b + ' m';", []],
    ['const a = b * 2;', ['b * 2 → (b) / (2)', '2 → 3']],
    ['const a = 0.5;', ['0.5 → 0.55']],
    ['const a = 0;', ['0 → 1']],
    ['const a = b < c;', ['b < c → (b) <= (c)', 'b < c → (b) >= (c)']],
    ['const a = b === c;', ['b === c → (b) !== (c)']],
    ['const a = b && !c;', ['b && !c → (b) || (!c)', '!c → (c)']],
    ['const a = b ?? c;', ['b ?? c → (b)', 'b ?? c → (c)']],
    ['const a = b ? c : d;', ['b → true', 'b → false']],
    ['if (a) b = -c;', ['a → true', 'a → false', 'b = -c; → ;', '-c → (c)']],
    ['while (a) break;', ['a → false', 'break; → ;']],
    ['for (;;) a++;', ['a++ → a--', 'a++; → ;']],
    ['a += b;', ['a += b → a -= (b)', 'a += b; → ;']],
    ['const a = Math.min(b, c);', ['min → max']],
    ['const a = Math.abs(b);', ['Math.abs(b) → (b)']],
    ['const a = b.some(c);', ['some → every']],
    ['const a = b.filter(c);', ['b.filter(c) → b']],
    ['function a() { return b; }', ['b → undefined']],
    ['const a = true;', ['true → false']],
  ])('of %s are as listed', (source, expected) => {
    expect(changesOf(source).sort()).toEqual([...expected].sort());
  });

  it('leave types, imports and words alone', () => {
    expect(
      changesOf(
        "import { a } from './1 + 1.ts';\ntype B = 1 | 2;\nconst c: 3 | 4 = d as 5;\nconst e = 'a < b';",
      ),
    ).toEqual([]);
  });

  it('change their own place only, and can be parsed', () => {
    const source = readFileSync(resolve(ROOT, 'pipeline/conditions/wind.ts'), 'utf8');
    const mutants = mutantsOf('pipeline/conditions/wind.ts', source);
    expect(mutants.length).toBeGreaterThan(10);
    for (const mutant of mutants) {
      const { start, end, from, to } = mutant;
      expect(source.slice(start, end)).toBe(from);
      const changed = mutated(source, mutant);
      expect(changed.slice(0, start) + from + changed.slice(start + to.length)).toBe(source);
      expect(mutantsOf('wind.ts', changed).length).toBeGreaterThan(0);
    }
  });
});

describe('a program with a mutant in it', () => {
  const path = resolve(ROOT, 'pipeline/conditions/wind.ts');
  const source = readFileSync(path, 'utf8');
  const program = new Program({});
  type Wind = { readonly dragRatio: (speedMps: number, headwindMps: number) => number };

  it('is changed in that module, and unchanged in the next instance', () => {
    const fault = mutantsOf(path, source).find(({ from }) => from === 'speedMps + headwindMps')!;
    const changed = program.instance({ path, source: mutated(source, fault) })(path) as Wind;
    const sound = program.instance()(path) as Wind;
    expect(sound.dragRatio(20, 5)).toBe(1.5625);
    expect(changed.dragRatio(20, 5)).toBe(0.5625);
    expect(readFileSync(path, 'utf8')).toBe(source);
  });

  it('stops in a loop without an end by the number of its turns', () => {
    program.turns.count = 0;
    program.turns.most = 1000;
    const endless = program.instance({ path, source: 'for (;;) {}' });
    expect(() => endless(path)).toThrow(/does not end/);
    expect(program.turns.count).toBe(1001);
  });

  it('tells which places are reached', () => {
    const mutants = mutantsOf('wind.ts', source);
    const keys = [...new Set(mutants.map(({ site }) => site))];
    const reached = new Uint8Array(keys.length);
    const counting = new Program({}, new Map([[path, new Map(keys.map((key, k) => [key, k]))]]), reached);
    const wind = counting.instance()(path) as Wind;
    reached.fill(0);
    wind.dragRatio(20, 5);
    const placeOf = (text: string) => keys.indexOf(mutants.find(({ from }) => from.startsWith(text))!.site);
    expect(reached[placeOf('ratio * Math.abs(ratio)')]).toBe(1);
    expect(reached[placeOf('windFromDeg - headingDeg')]).toBe(0);
  });
});

describe('the tests of a file', () => {
  it('are run as they say: groups, tables, what comes before and after, and those that must fail', async () => {
    const done: string[] = [];
    type Define = ((name: string, work: (...values: string[]) => void) => void) & {
      each(rows: readonly unknown[]): Define;
      skip: Define;
      fails: Define;
    };
    const suite = collect(vitest => {
      const {
        describe: group,
        it: test,
        beforeAll: before,
        afterAll: after,
      } = vitest as {
        readonly describe: Define;
        readonly it: Define;
        readonly beforeAll: (work: () => void) => void;
        readonly afterAll: (work: () => void) => void;
      };
      group('group', () => {
        before(() => done.push('before'));
        after(() => done.push('after'));
        test.each([['a', 'b'], 'c'])('row', (...values) => void done.push(values.slice(0, 2).join()));
        test.skip('left out', () => void done.push('never'));
        test.fails('fails', () => {
          throw new Error('as it must');
        });
      });
      test('fails', () => {
        throw new Error('here');
      });
    }, {});
    expect(suite.cases.map(({ name }) => name)).toEqual([
      'group > row [0]',
      'group > row [1]',
      'group > fails',
      'fails',
    ]);
    for (const one of suite.cases.slice(0, 3)) await one.run();
    await expect(suite.cases[3]!.run()).rejects.toThrow('here');
    await suite.end();
    expect(done).toEqual(['before', 'a,b', 'c', 'after']);
  });

  it('are those that reach a place, the cheapest file first, as far as the time allows', () => {
    const reachOf = (file: string, ms: number) =>
      indexed({
        file,
        shared: [],
        sharedMs: 0,
        sharedTurns: 0,
        cases: [
          { name: 'one', ms, reached: [7], turns: 10 },
          { name: 'other', ms: 2 * ms, reached: [8], turns: 20 },
        ],
      });
    const files = [reachOf('slow', 4000), reachOf('quick', 2000), reachOf('long', 9000)];
    const plan = planFor(7, files, 6000);
    expect(plan.map(({ file, cases }) => [file, cases])).toEqual([
      ['quick', [0]],
      ['slow', [0]],
    ]);
    expect(planFor(9, files, 6000)).toEqual([]);
  });
});

describe('a sample', () => {
  const list = Array.from({ length: 100 }, (_, k) => ({ k, group: k < 70 ? 'large' : 'small' }));
  const draw = (seed: number) => stratified(list, ({ group }) => group, 30, seed);

  it('takes from each group by its size, and the same again by the same seed', () => {
    const drawn = draw(3);
    expect(drawn.filter(({ group }) => group === 'large')).toHaveLength(21);
    expect(drawn).toHaveLength(30);
    expect(new Set(drawn).size).toBe(30);
    expect(draw(3)).toEqual(drawn);
    expect(draw(4)).not.toEqual(drawn);
    expect(stratified(list, ({ group }) => group, 100, 1)).toBe(list);
  });
});

describe('the interval of a share', () => {
  it.each([
    [510, 600],
    [1, 29],
    [0, 20],
    [20, 20],
  ])('of %d in %d ends where the share is 1.96 standard deviations of the true one away', (found, of) => {
    for (const end of shareInterval(found, of)) {
      const away = (found / of - end) ** 2;
      expect(away).toBeCloseTo((1.959964 ** 2 * end * (1 - end)) / of, 12);
    }
  });
});

describe('mutants that are called equivalent', () => {
  const known = new Map<string, ReturnType<typeof mutantsOf>>();
  const mutantsIn = (file: string): ReturnType<typeof mutantsOf> => {
    const mutants = known.get(file) ?? mutantsOf(file, readFileSync(resolve(ROOT, file), 'utf8'));
    known.set(file, mutants);
    return mutants;
  };

  it.each(EQUIVALENT.map(one => [`${one.file}: ${one.text}`, one] as const))(
    'are still there: %s',
    (_, entry) => {
      const mutants = mutantsIn(entry.file);
      const there = mutants.filter(({ text }) => text === entry.text).map(({ from, to }) => [from, to]);
      for (const change of entry.changes) expect(there).toContainEqual(change);
      expect(entry.why.length).toBeGreaterThan(20);
      expect(mutants.filter(isEquivalent).length).toBeGreaterThan(0);
    },
  );

  it('are each named once', () => {
    const named = EQUIVALENT.flatMap(({ file, text, changes }) =>
      changes.map(change => JSON.stringify([file, text, change])),
    );
    expect(new Set(named).size).toBe(named.length);
  });
});
