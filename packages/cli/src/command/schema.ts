import { briefSchema, type ResultKind, resultKinds, resultSchema } from '@lumenfront/core';
import { Argument, type Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import type { CommonOptions } from './common-options.js';

export function define(command: Command, streams: Streams): void {
  command
    .addArgument(new Argument('<name>', 'of what').choices(['brief', ...resultKinds]))
    .addHelpText(
      'after',
      '\nWhat commands write with --json, as JSON Schema (draft 2020-12): every key with its meaning and its unit.\n' +
        'scatter is what scatter --channel writes, scatter-front what it writes of a front, sweep-line one line of the\n' +
        'results of a sweep.',
    )
    .action(async (name: 'brief' | ResultKind, options: CommonOptions) => {
      const schema = await (name === 'brief' ? briefSchema() : resultSchema(name));
      createOutput(options, streams).result(schema, () => JSON.stringify(schema, null, 2));
    });
}
