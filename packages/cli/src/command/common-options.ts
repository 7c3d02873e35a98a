import type { Command } from 'commander';
import { numberOption } from './option-values.js';

/** Options that every command takes. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** The option of commands that draw random numbers. */
export interface SeedOption {
  /** Overrides `search.seed` of the brief. */
  readonly seed?: number;
}

export function addCommonOptions(command: Command): void {
  command.option('--json', 'print one JSON document').option('--quiet', 'no progress and no notes');
}

/** Of commands that draw random numbers. */
export function addSeedOption(command: Command): void {
  command.option(
    '--seed <number>',
    "seed of the random numbers, instead of the brief's",
    numberOption('--seed', { unit: '1', atLeast: 0, integer: true }),
  );
}

/** Options of the commands that judge a channel from a file. */
export interface ChannelOptions extends CommonOptions {
  readonly channel: string;
  readonly design?: number;
  readonly out?: string;
  readonly force?: boolean;
}

const channelSaid = 'the channel: a channel file, or what pick or front wrote with --json or --out';

export function addChannelOptions(command: Command): void {
  addDesignOption(command.requiredOption('--channel <file>', channelSaid));
}

/** Of a command that takes the brief's reference where no channel is given. */
export function addChannelOrReference(command: Command): void {
  addDesignOption(command.option('--channel <file>', `${channelSaid} (without it: the reference of the brief)`));
}

function addDesignOption(command: Command): void {
  command.option(
    '--design <number>',
    'which design of a front, from 1',
    numberOption('--design', { unit: '1', atLeast: 1, integer: true }),
  );
}

export const forceOfChannel = 'replace an existing file, and go on with a channel that was found for another brief';

/** Where the result of such a command goes as well. */
export function addOutOptions(command: Command): void {
  command.option('--out <file>', 'write the result to a file as well, as JSON').option('--force', forceOfChannel);
}
