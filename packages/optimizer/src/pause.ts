interface Port {
  onmessage: (() => void) | null;
  postMessage(message: unknown): void;
  close(): void;
}
declare const MessageChannel: new () => { readonly port1: Port; readonly port2: Port };

/**
 * Lets the event loop run: timers, signals, input and frames have their turn. A message, since `setTimeout` waits 4 ms in browsers once
 * it was called a few times in a row.
 */
export function pause(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });
}
