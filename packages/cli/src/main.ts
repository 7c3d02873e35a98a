import { exitCodes } from './exit-codes.js';
import { run } from './run.js';

// A reader that has seen enough (`| head`) closes the pipe: that is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

// Nobody listens to notes and progress: the work goes on.
process.stderr.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const code = await run(process.argv.slice(2));
// Meshes that are still being made when a search is stopped are not waited for.
if (code === exitCodes.stopped) process.exit(code);
process.exitCode = code;
