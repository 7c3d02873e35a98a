import type { ReducedModel } from '@lumenfront/core';
import type { Workplace } from './workplace.js';

/** Says where a joint asked for a finer model than others: its limits of wall and edge radius are where the fast model is weakest. */
export function noteModel({ accuracy, finer }: ReducedModel, { note }: Pick<Workplace, 'note'>): void {
  if (!finer || accuracy === undefined) return;
  note(
    `note: in this joint the usual model would be up to ${(100 * accuracy).toPrecision(2)} % off at the limits of wall and edge radius; ` +
      'a finer one was taken, at about twice the time an outline. Hold designs near these limits against the mesh (check)',
  );
}
