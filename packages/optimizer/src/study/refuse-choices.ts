import { InputError, type ResolvedBrief } from '@lumenfront/core';

/**
 * Refuses a brief that leaves something open, for what is done of one section.
 *
 * @param remedy what to do instead
 * @throws InputError
 */
export function refuseChoices(
  { choices }: Pick<ResolvedBrief, 'choices'>,
  remedy = 'take the brief of one of them: briefOfChoice',
): void {
  if (choices === undefined) return;
  throw new InputError({
    path: 'choices',
    expected: 'a brief that leaves nothing open',
    received: `one with ${choices.length} choices`,
    remedy,
  });
}
