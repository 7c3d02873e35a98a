import type { Host } from '../contract.js';
import type { Pocket } from './laminate.js';

/** Of a pocket: plies come down beside one round preform, so that there is no room for another. `others`: further remedies. */
export function oneInLens(pocket: Pocket, others = ''): Pick<Host, 'oneChannel'> {
  if (pocket.made === 'cut' || pocket.flat !== undefined) return {};
  return {
    oneChannel: {
      why: 'one in a lens that plies drape over: they come down beside its preform',
      remedy: `for several under the same plies give host.pocket.flat, the width over which plies run level, from the middle of the first preform to that of the last; ${others}or cut a slot for all (host.pocket.made: cut)`,
    },
  };
}
