import { InputError } from '@lumenfront/core';

export interface Threads<Request, Result> {
  /** @param name of the export of the file to call; without it the default one */
  run(request: Request, name?: string): Promise<Result>;
  /** Stops at once: what is running is rejected. */
  close(): Promise<void>;
}

/**
 * Threads load their file by `import` alone: Node ends the whole process where a thread is stopped while it loads modules by `require`
 * (seen in 20.20: `IsGraphAsync must be used on an instantiated module`), and the pool tries that first.
 */
const importOnly = '--no-experimental-require-module';
const execArgv = process.allowedNodeEnvironmentFlags.has(importOnly)
  ? [...process.execArgv, importOnly]
  : process.execArgv;

/**
 * So many worker threads that run a file, to be closed after use: they keep the process alive. Where a thread cannot start, what it
 * was to do is rejected with the reason.
 */
export async function openThreads<Request, Result>(options: {
  readonly workerFile: URL;
  readonly workers: number;
  /** What every thread is given when it starts. */
  readonly workerData?: unknown;
  readonly resourceLimits?: { readonly maxYoungGenerationSizeMb: number };
}): Promise<Threads<Request, Result>> {
  const { Piscina } = await import('piscina');
  const { workerFile, workers, ...others } = options;
  const pool = new Piscina<Request, Result>({
    filename: workerFile.href,
    minThreads: workers,
    maxThreads: workers,
    execArgv,
    ...others,
  });
  let failure: unknown;
  // A thread that fails without having anything to do: the next one would fail as well.
  pool.on('error', (error) => {
    failure ??= asGiven(error);
    void pool.destroy();
  });
  return {
    run: async (request, name) => {
      try {
        return await pool.run(request, name === undefined ? {} : { name });
      } catch (error) {
        throw failure ?? asGiven(error);
      }
    },
    close: () => pool.destroy(),
  };
}

/** An error of another thread keeps what it holds, but not what it is. */
function asGiven(error: unknown): unknown {
  const { problems } = error as Partial<InputError>;
  return problems === undefined ? error : new InputError(problems);
}
