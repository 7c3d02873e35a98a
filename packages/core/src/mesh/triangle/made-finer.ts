import { InputError } from '../../errors.js';
import type { CubicMesh } from './cubic-mesh.js';

/**
 * What `attempt` makes with sides of this coarseness or, where sides come too close to each other (`undefined`), with finer ones. Throws `InputError` where they stay
 * too close: a channel all but touches a border or another channel.
 */
export function madeFiner(coarseness: number, attempt: (coarseness: number) => CubicMesh | undefined): CubicMesh {
  for (let finer = coarseness; finer > coarseness / 8; finer *= 0.75) {
    const mesh = attempt(finer);
    if (mesh !== undefined) return mesh;
  }
  throw new InputError({
    path: 'channel',
    expected: 'walls around the channel that triangles fit into',
    received: 'sides too close to each other, however short',
    remedy: 'move the channel away from borders and other channels, or make it smaller',
  });
}
