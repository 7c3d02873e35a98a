import { Command, CommanderError } from 'commander';
import { caution } from './caution.js';
import type { CommandModule } from './command/command.js';
import { exitCodes } from './exit-codes.js';
import type { Streams } from './output.js';
import { readVersion } from './version.js';

interface CommandEntry {
  readonly summary: string;
  readonly load: () => Promise<CommandModule>;
}

/** In the order of the help. A new command is one file in `command/` and one line here. */
const commands: Readonly<Record<string, CommandEntry>> = {
  front: {
    summary: 'search the front: channel area against peak stress, over all families of outlines',
    load: () => import('./command/front.js'),
  },
  pick: {
    summary: 'find the largest channel whose peak stress stays within the allowed value',
    load: () => import('./command/pick.js'),
  },
  check: {
    summary: 'stress of one given channel, by the fast model and by an independent mesh',
    load: () => import('./command/check.js'),
  },
  deliver: {
    summary: 'say what a channel delivers: flow, healing agents, coolant, sensor, beside the reference',
    load: () => import('./command/deliver.js'),
  },
  scatter: {
    summary: 'say what scatter of made channels does to one channel, or to the front',
    load: () => import('./command/scatter.js'),
  },
  sweep: {
    summary: 'run pick or front for many variations of a brief',
    load: () => import('./command/sweep.js'),
  },
  draw: {
    summary: 'write a channel as DXF, SVG or CSV',
    load: () => import('./command/draw.js'),
  },
  report: {
    summary: 'write a front or a pick as an HTML report',
    load: () => import('./command/report.js'),
  },
  brief: {
    summary: 'write the starter brief or its JSON Schema, or check a brief',
    load: () => import('./command/brief.js'),
  },
  schema: {
    summary: 'write the JSON Schema of a brief or of what a command writes with --json',
    load: () => import('./command/schema.js'),
  },
};

const introduction = `Finds hollow channels (vascules) for the filler of composite T-joints: where, how large and of which outline, trading channel area against peak stress at its edge.

${caution}`;

const conventions = `
Every command takes --json (one JSON document on standard output; what failed
as JSON on standard error) and --quiet; --channel names the file that a command
reads, --out the one that it writes. Exit codes: 0 done, 1 the brief cannot be
met, 2 bad input, 3 internal error, 4 fast model and mesh disagree, 130 stopped
by Ctrl-C (front and pick write the best so far). Units: mm, N, MPa, K.

A joint is solved once: its reduced model is kept in the folder LUMENFRONT_CACHE
(without it: where the platform keeps caches; empty: nowhere), 256 MiB at most.`;

/**
 * Runs one command line.
 *
 * @param argv without the names of node and script
 * @returns the exit code
 */
export async function run(argv: readonly string[], streams: Streams = process): Promise<number> {
  try {
    const { presentWords } = await import('./command/older-words.js');
    const words = presentWords(argv, (text) => {
      if (!argv.includes('--quiet')) streams.stderr.write(`${text}\n`);
    });
    const program = await buildProgram(words, streams);
    if (words.length === 0) program.outputHelp();
    else await program.parseAsync(words, { from: 'user' });
    return exitCodes.done;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return exitCodes.done;
    const { describeFailure } = await import('./failure.js');
    const { text, exitCode } = describeFailure(error, argv, Object.keys(commands));
    streams.stderr.write(text);
    return exitCode;
  }
}

async function buildProgram(argv: readonly string[], streams: Streams): Promise<Command> {
  // Before any command is added: commands take these settings over when they are made, not later.
  const program = new Command('lumenfront')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => streams.stdout.write(text),
      // Said by `describeFailure` instead, in one form for every mistake.
      writeErr: () => {},
    })
    .description(introduction)
    .addHelpText('after', conventions)
    .version(readVersion(), '--version', 'print the version')
    .helpOption('-h, --help', 'show this help')
    .helpCommand('help [command]', 'show the help of a command');
  for (const [name, entry] of Object.entries(commands)) {
    const command = program.command(name).description(entry.summary).allowExcessArguments(false);
    // Only the command that is named is loaded: the help costs little more than starting Node.
    if (!argv.includes(name)) continue;
    const { addCommonOptions } = await import('./command/common-options.js');
    (await entry.load()).define(command, streams);
    addCommonOptions(command);
  }
  return program;
}
