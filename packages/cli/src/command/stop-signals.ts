const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** What was asked of this process from outside: to end. */
export interface StopRequest {
  readonly signal: AbortSignal;
  /** Ends as a process ends that did not listen, so that whoever started it knows why; returns if nothing was asked. */
  obey(): void;
  /** Listens no longer. */
  ignore(): void;
}

/** Listens for the first request to end, such as Ctrl-C. The second one ends the process at once. */
export function listenForStop(): StopRequest {
  const controller = new AbortController();
  let received: NodeJS.Signals | undefined;
  const ignore = () => {
    for (const name of signals) process.off(name, stop);
  };
  const stop = (name: NodeJS.Signals) => {
    received = name;
    ignore();
    controller.abort();
  };
  for (const name of signals) process.on(name, stop);
  return {
    signal: controller.signal,
    ignore,
    obey: () => {
      ignore();
      if (received !== undefined) process.kill(process.pid, received);
    },
  };
}
