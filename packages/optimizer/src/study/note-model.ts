import type { ReducedModel } from '@lumenfront/core';
import { tolerated } from './trust.js';
import type { Workplace } from './workplace.js';

/** Says before a search where it would rest on a model that no degree makes good enough, and what would. */
export function noteModel({ accuracy }: ReducedModel, { note }: Pick<Workplace, 'note'>): void {
  if (accuracy === undefined || accuracy <= tolerated) return;
  note(
    `note: at the limits of wall and edge radius the fast model of this joint is off by up to ${(100 * accuracy).toPrecision(2)} %; channels ` +
      'around which it is off by more than 1 % are left out. More channel.wall or channel.edgeRadius makes it better',
  );
}
