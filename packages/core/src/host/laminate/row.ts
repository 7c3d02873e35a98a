import { rounded } from '../../input/index.js';
import type { HostBrief } from '../contract.js';
import { type LaminateJoint, lensAt } from './laminate.js';

/** How pockets stand in an endless row. Shear turns the row's moment over along the span, so that no two cells are loaded alike. */
export const laminateRow: NonNullable<HostBrief<LaminateJoint>['row']> = {
  without: {
    shear: {
      why: 'its moment grows along the span, so that no two cells bear alike',
      remedy: 'remove it; channels under shear are solved as one or two (channels.number) in a laminate of given width',
    },
  },
  cell(joint, pitch, problems) {
    const { pocket, layup } = joint;
    const isSlot = pocket.made === 'cut';
    const longest = isSlot ? pocket.halfWidth : lensAt(pocket, pocket.follows?.most ?? pocket.height).halfLength;
    const length = 2 * longest;
    // Nearer ends of pockets would be meshed as if plies went on between them.
    const apart = Math.min(...layup.map(({ thickness }) => thickness));
    if (!(pitch >= length + apart))
      problems.add(
        ['channels', 'pitch'],
        `at least ${rounded(length + apart)} mm: every channel lies in a pocket of its own, ${rounded(length)} mm ${isSlot ? 'wide' : 'from tip to tip'}, a ply thickness from the next`,
        `raise it, or take ${isSlot ? 'a narrower slot (host.pocket.width)' : 'a shorter pocket (host.pocket.length, or a lower preform)'}`,
      );
    return { ...joint, width: pitch, row: true };
  },
};
