// A worker of front-with-workers.ts, in Node and in a browser: answers what a search asks of its evaluator.
import type { ChannelTask } from '@lumenfront/core';
import { createChannelEvaluator } from '@lumenfront/optimizer';

interface Order {
  readonly data: { readonly task: ChannelTask; readonly port: MessagePort };
}
interface Scope {
  onmessage: ((order: Order) => void) | null;
}
const { self } = globalThis as { self?: Scope };
const scope = self ?? ((await import('node:worker_threads')).parentPort as unknown as Scope);

scope.onmessage = async ({ data: { task, port } }) => {
  const { score, descend, refine } = createChannelEvaluator(task);
  const answers: Record<string, (...values: never[]) => Promise<unknown>> = { score, descend, refine };
  port.onmessage = async ({ data: { id, name, values } }) => {
    try {
      port.postMessage({ id, answer: await answers[name]!(...(values as never[])) });
    } catch (error) {
      port.postMessage({ id, error });
    }
  };
};
