import { describe, expect, it } from 'vitest';
import { contentFilesToContent } from '../../pipeline/content/content.ts';
import { schemaHint } from '../../pipeline/content/json-schema.ts';
import { CAR, contentFiles, HOUSE, ROAD, TEST } from './valid.ts';

const GERMAN_HOUSE = HOUSE.replace('language: en-GB', 'language: en-GB\nfurther_languages: [de-DE]');
/** Everything of the small publication in German. */
const WHOLE = {
  'content/house.yaml': GERMAN_HOUSE,
  'content/house.de.yaml':
    'launch_methods:\n  brake-hold: { name: Gegen die Bremse, how: Halten. }\n  from-rest: { name: Aus dem Stand, how: Drücken. }\n',
  'content/methodology.de.md': '# Wie wir messen\n',
  'content/cars/wren.de.yaml': 'kind: Kleinwagen\ngearbox: Fünfgang-Schaltgetriebe\n',
  'content/roads/tarn.de.yaml':
    'about: Eine Rollbahn.\npermission: Der Eigentümer.\nsurface: Asphalt\ndirections: { east: nach Osten, west: nach Westen }\n',
  'content/tests/wren-dry/test.de.yaml':
    'title: Der Wren\nstandfirst: Ein Tag.\nas_tested: { aboard: Fahrer, fuel: halber Tank, tyres: Sommerreifen }\nreceiver: Empfänger\nremarks:\n  Clean: Sauber\n  A hare: Ein Hase\n',
  'content/tests/wren-dry/article.de.md': 'Er fährt.\n',
};
const read = (changes: Readonly<Record<string, string | undefined>> = {}) =>
  contentFilesToContent(contentFiles({ ...WHOLE, ...changes }));
const told = (changes: Readonly<Record<string, string | undefined>>) =>
  read(changes).problems.map(({ id, severity, what, where }) => ({ id, severity, what, where }));

describe('a publication in two languages', () => {
  it('has nothing to tell where everything is translated', () => {
    const content = read();
    expect(content.problems).toEqual([]);
    const [german] = content.translations;
    expect(german?.tag).toBe('de-DE');
    expect(german?.tests.get('wren-dry')?.title).toBe('Der Wren');
    expect(german?.articles.get('wren-dry')).toEqual({
      file: 'content/tests/wren-dry/article.de.md',
      markdown: 'Er fährt.\n',
    });
    expect(german?.methodology?.markdown).toContain('Wie wir messen');
  });

  it('keeps cars and roads to the files in the main language', () => {
    const content = read();
    expect(content.cars.map(({ id }) => id)).toEqual(['wren']);
    expect(content.roads.map(({ id }) => id)).toEqual(['tarn']);
    expect(content.tests.map(({ id }) => id)).toEqual(['wren-dry']);
  });

  it('has none where house.yaml names no further one', () => {
    const content = contentFilesToContent(contentFiles());
    expect([content.translations, content.problems]).toEqual([[], []]);
  });
});

describe('what is missing', () => {
  it('is noted, word by word, in the file that lacks it', () => {
    expect(
      told({ 'content/tests/wren-dry/test.de.yaml': 'title: Der Wren\nremarks:\n  Clean: Sauber\n' }),
    ).toEqual([
      {
        id: 'translation-missing-words',
        severity: 'note',
        what: 'In de-DE some words are shown in en-GB: standfirst; as_tested.aboard; as_tested.fuel; as_tested.tyres; receiver; remarks: A hare',
        where: { file: 'content/tests/wren-dry/test.de.yaml', line: 1 },
      },
    ]);
  });

  it('is noted in the main file where there is no other', () => {
    expect(told({ 'content/cars/wren.de.yaml': undefined })).toEqual([
      {
        id: 'translation-missing-words',
        severity: 'note',
        what: 'In de-DE some words are shown in en-GB: kind; gearbox',
        where: { file: 'content/cars/wren.yaml' },
      },
    ]);
  });

  it.each(['content/methodology', 'content/tests/wren-dry/article'])('is noted of a text: %s', stem => {
    expect(told({ [`${stem}.de.md`]: undefined })).toEqual([
      {
        id: 'translation-missing-text',
        severity: 'note',
        what: 'In de-DE this text is shown in en-GB',
        where: { file: `${stem}.md` },
      },
    ]);
  });

  it('says nothing of what the main language leaves out as well', () => {
    expect(HOUSE).not.toContain('strapline');
    expect(CAR).not.toContain('price');
    expect(TEST).not.toContain('notes:');
    expect(told({})).toEqual([]);
  });
});

describe('what fits nothing', () => {
  it.each([
    [
      'a launch method',
      'content/house.de.yaml',
      WHOLE['content/house.de.yaml'].replace('from-rest', 'from-rset'),
      3,
      'from-rest',
    ],
    [
      'a direction',
      'content/roads/tarn.de.yaml',
      WHOLE['content/roads/tarn.de.yaml'].replace('east:', 'eats:'),
      4,
      'east',
    ],
    [
      'a remark',
      'content/tests/wren-dry/test.de.yaml',
      WHOLE['content/tests/wren-dry/test.de.yaml'].replace('A hare', 'A hair'),
      7,
      'A hare',
    ],
  ])('is told at its place, with what it is near: %s', (_what, file, text, line, near) => {
    const problem = read({ [file]: text }).problems.find(({ id }) => id === 'translation-of-nothing');
    expect(problem?.severity).toBe('warning');
    expect(problem?.where).toMatchObject({ file, line });
    expect(problem?.mend).toContain(near);
  });

  it('is told of a file beside nothing and of a language without pages', () => {
    expect(
      told({ 'content/cars/wrne.de.yaml': 'kind: Kleinwagen\n' }).map(({ id, where }) => [id, where?.file]),
    ).toEqual([['translation-of-nothing', 'content/cars/wrne.de.yaml']]);
    expect(
      told({ 'content/house.fr.yaml': 'strapline: Rien\n' }).map(({ id, where }) => [id, where?.file]),
    ).toEqual([['translation-not-used', 'content/house.fr.yaml']]);
  });

  it('is told of a field that is none, with line and column', () => {
    const problem = read({ 'content/cars/wren.de.yaml': 'kind: Kleinwagen\ngearbox: vier\ngearbx: fünf\n' })
      .problems[0];
    expect(problem?.where).toMatchObject({ file: 'content/cars/wren.de.yaml', line: 3, column: 1 });
  });
});

describe('further languages', () => {
  it.each([
    ['fr-FR', 'translation-language-not-spoken'],
    ['en-US', 'translation-language-twice'],
    ['german', 'content-wrong-form'],
  ])('must be ones with words, each once: %s', (tag, id) => {
    const { problems, translations } = contentFilesToContent(
      contentFiles({
        'content/house.yaml': HOUSE.replace(
          'language: en-GB',
          `language: en-GB\nfurther_languages: [${tag}]`,
        ),
      }),
    );
    expect(problems.map(problem => problem.id)).toEqual([id]);
    expect(problems[0]?.where).toMatchObject({ file: 'content/house.yaml', line: 4, column: 21 });
    expect(translations).toEqual([]);
  });
});

describe('schemas for editors', () => {
  it.each([
    ['content/house.de.yaml', 'schema/house-words.json'],
    ['content/cars/wren.de.yaml', '../schema/car-words.json'],
    ['content/roads/tarn.de.yaml', '../schema/road-words.json'],
    ['content/tests/wren-dry/test.de.yaml', '../../schema/test-words.json'],
  ])('are hinted at in %s', (file, schema) => {
    expect(schemaHint(file)).toContain(schema);
  });

  it('are those of the main language in its own files', () => {
    expect(ROAD).toContain('directions');
    expect(schemaHint('content/roads/tarn.yaml')).toContain('road.json');
  });
});
