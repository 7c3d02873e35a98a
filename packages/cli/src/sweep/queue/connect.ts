import { InputError } from '@lumenfront/core';
import type { RedisOptions } from 'bullmq';

export type QueueLibrary = typeof import('bullmq');

/** Where the cases are, and what to do when it cannot be reached for a while. */
export interface QueueAddress {
  readonly url: string;
  /** Cases of another version of the program have another queue: their results would differ. */
  readonly name: string;
}

export function queueAddress(url: string, version: string): QueueAddress {
  const { protocol } = URL.canParse(url) ? new URL(url) : { protocol: '' };
  if (protocol !== 'redis:' && protocol !== 'rediss:')
    throw new InputError({
      path: '--queue',
      expected: 'the address of a Redis or Valkey server',
      received: JSON.stringify(withoutPassword(url).slice(0, 60)),
      remedy: 'write, for example, redis://127.0.0.1:6379, or rediss:// for an encrypted connection',
    });
  return { url, name: `lumenfront-sweep-${version}` };
}

/**
 * The queue library, which is an optional dependency: without it everything runs on one machine.
 *
 * @param load replaced by tests
 * @throws InputError if it is not installed
 */
export async function loadQueueLibrary(
  load: () => Promise<QueueLibrary> = () => import('bullmq'),
): Promise<QueueLibrary> {
  try {
    return await load();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_MODULE_NOT_FOUND') throw error;
    throw new InputError({
      path: '--queue',
      expected: 'the package bullmq, an optional dependency',
      received: 'an installation without it',
      remedy: 'install it beside lumenfront (npm install bullmq), or leave --queue out',
    });
  }
}

/** A connection that says at once when there is no server, but waits for one that goes away later. */
export interface QueueConnection {
  readonly options: RedisOptions;
  /**
   * Waits until a client that was just made is connected.
   *
   * @throws InputError if there is no server to use
   */
  ready(client: QueueClient): Promise<void>;
}

interface QueueClient {
  on(event: 'error', listener: (error: Error) => void): unknown;
  waitUntilReady(): Promise<unknown>;
}

const firstAttempts = 3;

/** @param note is told what goes wrong once it is connected */
export function queueConnection({ url }: QueueAddress, note: (text: string) => void): QueueConnection {
  let connected = false;
  let last = '';
  const onError = (error: Error) => {
    const message = error.message || error.name;
    // While a server is away, every attempt says the same.
    if (connected && message !== last) note(`queue: ${message}`);
    last = message;
  };
  return {
    options: {
      url,
      maxRetriesPerRequest: null,
      retryStrategy: (attempt) => (connected || attempt < firstAttempts ? Math.min(200 * attempt, 5000) : null),
    },
    ready: async (client) => {
      client.on('error', onError);
      try {
        await client.waitUntilReady();
        connected = true;
      } catch (error) {
        throw new InputError({
          path: '--queue',
          expected: 'a Redis or Valkey server that answers',
          received: `${withoutPassword(url)} (${(error as Error).message})`,
          remedy: 'start the server, or correct its address, user and password',
        });
      }
    },
  };
}

/** An address as it may be shown. */
function withoutPassword(url: string): string {
  return url.replace(/\/\/[^/@]*@/, '//');
}
