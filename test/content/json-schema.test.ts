import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentFilesToContent } from '../../pipeline/content/content.ts';
import { contentSchemaFiles, schemaHint } from '../../pipeline/content/json-schema.ts';
import { readContentFolder } from '../../pipeline/content/read-folder.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const schemas = [...contentSchemaFiles()];

interface SchemaNode {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly additionalProperties?: SchemaNode | boolean;
}

function fields(node: SchemaNode, path: string): [string, SchemaNode][] {
  const own = Object.entries(node.properties ?? {}).map(([key, field]): [string, SchemaNode] => [
    `${path}.${key}`,
    field,
  ]);
  const inner = [
    node.items,
    typeof node.additionalProperties === 'object' ? node.additionalProperties : undefined,
  ];
  return [
    ...own,
    ...own.flatMap(([name, field]) => fields(field, name)),
    ...inner.flatMap(field => (field === undefined ? [] : fields(field, `${path}[]`))),
  ];
}

describe('the schemas for editors', () => {
  it.each(schemas)(
    '%s is the one in the repository; evenground check --write-schemas renews it',
    (path, text) => {
      expect(readFileSync(join(ROOT, path), 'utf8')).toBe(text);
    },
  );

  it('are all there are in the folder', () => {
    const names = readdirSync(join(ROOT, 'content/schema')).map(name => `content/schema/${name}`);
    expect(names.sort()).toEqual(schemas.map(([path]) => path).sort());
  });

  it.each(schemas)('%s describes every field', (path, text) => {
    const all = fields(JSON.parse(text) as SchemaNode, path);
    // The words of a file in another language are fewer than its fields.
    expect(all.length).toBeGreaterThan(path.endsWith('-words.json') ? 4 : 8);
    expect(all.filter(([, field]) => !field.description).map(([name]) => name)).toEqual([]);
  });

  it('are found by the hint at the top of a file', () => {
    const hints = {
      'content/house.yaml': 'house',
      'content/cars/wren.yaml': 'car',
      'content/roads/tarn.yaml': 'road',
      'content/tests/wren-dry/test.yaml': 'test',
    };
    for (const [file, name] of Object.entries(hints)) {
      const target = /\$schema=(.+)$/.exec(schemaHint(file) ?? '')?.[1] ?? '';
      expect(join(file, '..', target), file).toBe(`content/schema/${name}.json`);
    }
    expect(schemaHint('content/methodology.md')).toBeUndefined();
  });
});

describe('the content of the repository', () => {
  it('fits its schemas and itself', async () => {
    const files = await readContentFolder(ROOT);
    const content = contentFilesToContent(files);
    const written = content.problems.filter(({ where }) => existsSync(join(ROOT, where?.file ?? '')));
    expect(written).toEqual([]);
    expect(content.tests.length).toBeGreaterThan(0);
  });
});
