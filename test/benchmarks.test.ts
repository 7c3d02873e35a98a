import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as core from '@lumenfront/core';
import * as optimizer from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';

const folder = fileURLToPath(new URL('../benchmarks/', import.meta.url));
const surfaces: Readonly<Record<string, object>> = { core, optimizer };

/** Names that a script takes from a package and that the package does not show. */
function missing(text: string): string[] {
  return [...text.matchAll(/import \{([^}]*)\} from '@lumenfront\/(\w+)'/g)].flatMap(([, names, of]) =>
    names!
      .split(',')
      .map((name) => name.trim().split(' as ')[0]!)
      .filter((name) => name !== '' && !(name in surfaces[of!]!)),
  );
}

describe('benchmarks', () => {
  it('take from the packages only what these show', () => {
    expect(missing("import { reduceJoint, nobody } from '@lumenfront/core';")).toEqual(['nobody']);
    for (const file of readdirSync(folder).filter((name) => name.endsWith('.js')))
      expect(missing(readFileSync(folder + file, 'utf8')), file).toEqual([]);
  });
});
