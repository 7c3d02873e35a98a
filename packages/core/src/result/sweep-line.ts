import type { Zod } from '../input/index.js';
import { byName, figure, group, listOf, type Of, text, word } from './figure.js';
import { front } from './front.js';
import { mark } from './header.js';
import { pick } from './pick.js';

function line(z: Zod) {
  return {
    ...mark(z, 'sweep-line'),
    case: text(z, 'Name of the case: a hash of all that can change its result.'),
    version: text(z, 'Version of the program.'),
    run: word(z, ['pick', 'front'], 'The command that was run.'),
    vary: byName(z, z.unknown(), 'What differs in the case, by path in the brief.'),
  };
}

function failure(z: Zod) {
  return group(
    z,
    {
      kind: word(z, ['bad input', 'cannot be met', 'internal error'], 'What kind of failure.'),
      message: text(z, 'Message.'),
      problems: z.exactOptional(
        listOf(
          z,
          z.object({
            path: text(z, 'Where in the brief.'),
            expected: text(z, 'What was expected.'),
            received: text(z, 'What was received.'),
            remedy: text(z, 'What to do.'),
            file: z.exactOptional(text(z, 'File of the brief.')),
            line: z.exactOptional(figure(z, '1', 'Line in it.')),
          }),
          'What is wrong with the brief.',
        ),
      ),
    },
    'Why it failed.',
  );
}

export function sweepLine(z: Zod) {
  return z.discriminatedUnion('status', [
    group(
      z,
      {
        ...line(z),
        status: z.literal('done'),
        result: z.meta(z.union([front(z), pick(z)]), { description: 'What its command gives with --json.' }),
      },
      'A case that was done, with what its command gives.',
    ),
    group(
      z,
      {
        ...line(z),
        status: z.literal('unmet'),
        error: failure(z),
        leastPeak: z.exactOptional(
          figure(z, 'MPa', 'The least peak that was found, where the allowed one is too low.'),
        ),
      },
      'A case whose brief is sound and cannot be met.',
    ),
    group(z, { ...line(z), status: z.literal('failed'), error: failure(z) }, 'A case that failed.'),
  ]);
}

/** One line of the results of a sweep. */
export type SweepLine = Of<typeof sweepLine>;
