import { briefSchema, type ResolvedBrief, readBriefText, starterBrief, textsByHash } from '@lumenfront/core';
import type { Command } from 'commander';
import { writeTextFile } from '../files/index.js';
import { createOutput, type Output, type Streams } from '../output.js';
import { addSeedOption, type CommonOptions, type SeedOption } from './common-options.js';
import { loadBrief } from './load-brief.js';
import { summariseBrief } from './summarise-brief.js';

interface BriefOptions extends CommonOptions, SeedOption {
  readonly schema?: boolean;
  readonly check?: string;
  readonly out?: string;
  readonly force?: boolean;
}

export function define(command: Command, streams: Streams): void {
  addSeedOption(command);
  command
    .addOption(
      command.createOption('--schema', 'the JSON Schema of a brief, for completion in an editor').conflicts('check'),
    )
    .option('--check <file>', 'check a brief and say what it comes to')
    .option('--out <file>', 'write to a file instead of standard output')
    .option('--force', 'replace an existing file')
    .action(async (options: BriefOptions) => {
      const output = createOutput(options, streams);
      const [document, text] = await answer(options, output);
      if (options.out === undefined) output.result(document, () => text);
      else {
        writeTextFile(options.out, options.json ? `${JSON.stringify(document, null, 2)}\n` : text, {
          force: options.force === true,
        });
        output.note(`wrote ${options.out}`);
      }
    });
}

async function answer(options: BriefOptions, output: Output): Promise<[document: unknown, text: string]> {
  if (options.schema) {
    const schema = await briefSchema();
    return [schema, `${JSON.stringify(schema, null, 2)}\n`];
  }
  if (options.check !== undefined) {
    const brief: ResolvedBrief = await loadBrief(options.check, options);
    for (const caution of brief.cautions) output.note(`note: ${caution}`);
    return [textsByHash(brief), summariseBrief(brief)];
  }
  const text = options.seed === undefined ? starterBrief : starterBrief.replace(/\bseed: \d+/, `seed: ${options.seed}`);
  return [(await readBriefText(text)).data, text];
}
