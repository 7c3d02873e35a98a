import { briefSchema, resultSchema } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { fieldsTable, figuresTable, note, rowsOf } from './fixtures/reference-pages.js';

const results = {
  front: '`front`',
  pick: '`pick`',
  check: '`check`',
  deliver: '`deliver`',
  scatter: '`scatter --channel`',
  'scatter-front': '`scatter` of a front',
  'sweep-line': 'a line of `results.ndjson` of `sweep`',
} as const;

// Rewritten by `npx vitest run test/reference-pages.test.ts --update`.
describe('the guide', () => {
  it('defines every figure of every result, as the schemas do', async () => {
    const seen = new Map<string, string>();
    const sections: string[] = [];
    for (const [kind, title] of Object.entries(results)) {
      const schema = (await resultSchema(kind as keyof typeof results)) as object;
      const rows = rowsOf(schema, seen, kind);
      note(schema, seen, kind);
      for (const { key, schema } of rows) expect(schema.description ?? schema.enum ?? schema.const, key).toBeDefined();
      sections.push(`## ${title}\n\n${figuresTable(rows)}\n`);
    }
    const page = `# Figures

Every key that a command writes with \`--json\` or \`--out\`, with its unit and its meaning: \`[]\` stands for the entries of a list, \`*\` for
names. Written by \`test/reference-pages.test.ts\` from the schemas of the results, which \`lumenfront schema front\` and the others print.

${sections.join('\n')}`;
    await expect(page).toMatchFileSnapshot('../packages/cli/guide/figures.md');
  });

  it('explains every field of a brief, as the schema does', async () => {
    const rows = rowsOf((await briefSchema()) as object, new Map(), 'brief');
    const page = `# Fields of a brief

Every key that a brief may have. All may be left out, but those of a section from a mesh and of a pocket that say what it is; what is taken then stands under "without it", or in what \`lumenfront brief --check\` says.
\`[]\` stands for the entries of a list, \`*\` for names that you give. Written by \`test/reference-pages.test.ts\` from the schema, which
\`lumenfront brief --schema\` prints for editors.

${fieldsTable(rows)}
`;
    await expect(page).toMatchFileSnapshot('../packages/cli/guide/brief.md');
  });
});
