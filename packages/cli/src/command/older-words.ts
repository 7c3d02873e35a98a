/** What the file of `--channel` was called, or is called by whoever thinks of what wrote it. */
const channelFile = { '--result': '--channel', '--front': '--channel', '--pick': '--channel' };

/** Options that have another name now, by command. */
const renamed: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  front: { '--objective': '--against' },
  ...Object.fromEntries(['check', 'deliver', 'draw', 'report', 'scatter'].map((name) => [name, channelFile])),
};

/** Options with a value that do nothing in a command, and are no longer offered there. */
const idle: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  ['check', 'deliver', 'draw', 'report', 'schema'].map((name) => [name, ['--seed']]),
);

/** A command line in the words of today; `note` is told of every older one. */
export function presentWords(argv: readonly string[], note: (text: string) => void): string[] {
  const [command = '', ...rest] = argv;
  const words = renamed[command] ?? {};
  const present = [command];
  for (let i = 0; i < rest.length; i++) {
    const [option, ...value] = rest[i]!.split('=') as [string, ...string[]];
    if (idle[command]?.includes(option)) {
      note(`note: ${option} does nothing in ${command}`);
      if (value.length === 0) i++;
      continue;
    }
    const now = Object.hasOwn(words, option) ? words[option] : undefined;
    if (now !== undefined) note(`note: ${option} is called ${now}`);
    present.push([now ?? option, ...value].join('='));
  }
  return argv.length === 0 ? [] : present;
}
