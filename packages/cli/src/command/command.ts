import type { Command } from 'commander';
import type { Streams } from '../output.js';

/** Options that every command takes. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
  /** Overrides `search.seed` of the brief. */
  readonly seed?: number;
}

/**
 * A command lives in a file of its own, loaded only when it is called. `define` adds arguments, options and the action
 * to a command that has its name, its summary and the common options already.
 */
export interface CommandModule {
  define(command: Command, streams: Streams): void;
}
