import type { Command } from 'commander';
import type { Streams } from '../output.js';

/**
 * A command lives in a file of its own, loaded only when it is called. `define` adds arguments, options and the action
 * to a command that has its name, its summary and the common options already.
 */
export interface CommandModule {
  define(command: Command, streams: Streams): void;
}
