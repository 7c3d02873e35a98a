import type { Command } from 'commander';
import { numberOption } from './option-values.js';

/** Options that every command takes. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
  /** Overrides `search.seed` of the brief. */
  readonly seed?: number;
}

export function addCommonOptions(command: Command): void {
  command
    .option('--json', 'print one JSON document')
    .option(
      '--seed <number>',
      "seed of the random numbers, instead of the brief's",
      numberOption('--seed', { unit: '1', atLeast: 0, integer: true }),
    )
    .option('--quiet', 'no progress and no notes');
}
