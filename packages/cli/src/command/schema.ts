import { briefSchema, type ResultKind, resultKinds, resultSchema } from '@lumenfront/core';
import { Argument, type Command } from 'commander';
import { writeTextFile } from '../files/index.js';
import { createOutput, type Streams } from '../output.js';
import type { CommonOptions } from './common-options.js';

interface SchemaOptions extends CommonOptions {
  readonly out?: string;
  readonly force?: boolean;
}

export function define(command: Command, streams: Streams): void {
  command
    .addArgument(new Argument('<name>', 'of what').choices(['brief', ...resultKinds]))
    .option('--out <file>', 'write to a file instead of standard output')
    .option('--force', 'replace an existing file')
    .addHelpText(
      'after',
      '\nWhat commands write with --json, as JSON Schema (draft 2020-12): every key with its meaning and its unit.\n' +
        'scatter is what scatter --channel writes, scatter-front what it writes of a front, sweep-line one line of the\n' +
        'results of a sweep.',
    )
    .action(async (name: 'brief' | ResultKind, options: SchemaOptions) => {
      const schema = await (name === 'brief' ? briefSchema() : resultSchema(name));
      const [output, text] = [createOutput(options, streams), `${JSON.stringify(schema, null, 2)}\n`];
      if (options.out === undefined) return output.result(schema, () => text);
      writeTextFile(options.out, text, { force: options.force === true });
      output.note(`wrote ${options.out}`);
    });
}
