import type { CrackCheck, CrackSite } from '../../../contract.js';
import { crackRelease, crackSites, pliesBeside } from '../../../laminate/index.js';
import { solveTee } from '../../check/solve.js';
import type { TeeJoint } from '../../tee.js';
import { levelOf, type PocketSite, type PocketTee, pocketSite, roomAround } from '../site.js';
import { asTee, curvesInFiller } from './in-filler.js';
import { curvesInPocket } from './solve.js';
import { pocketTeeTriangles } from './triangles.js';

/** In a crack's lengths, how far beyond the pocket its laminate is meshed for it: less than the room that `crackRelease` asks for. */
const reachOfLength = 1.5;

/** Cracks between plies from the ends of a tee's pocket, in the laminate that holds it. In a bend the right end is that towards the foot. */
export const teeCracks: CrackCheck<TeeJoint> = {
  sites: (joint) => {
    if (!hasPocket(joint)) return [];
    const site = pocketSite(joint);
    return crackSites(site.laminate).map((crack) => recounted(crack, joint, site));
  },
  between(joint, crack) {
    const site = pocketSite(joint as PocketTee);
    return pliesBeside(site.laminate, recounted(crack, joint as PocketTee, site));
  },
  release(tee, loads, curves, crack) {
    const joint = tee as PocketTee;
    const site = pocketSite(joint);
    const { form, laminate, reach } = site;
    const { in: where, at } = joint.pocket;
    const room = Math.min(...roomAround(joint, where, at, levelOf(laminate))) - form.halfWidth;
    const further = { ...site, reach: Math.max(reach, form.halfWidth + reachOfLength * crack.length) };
    const isInFiller = joint.pocket.channel !== undefined;
    const channels = (isInFiller ? curvesInFiller : curvesInPocket)(joint, site, curves);
    return crackRelease(
      {
        laminate,
        room,
        mesh(coarseness, meshed) {
          const mesh = pocketTeeTriangles(joint, further, channels, coarseness, meshed);
          return isInFiller ? asTee(mesh) : mesh;
        },
        solve: (mesh) => solveTee(mesh, joint, loads),
      },
      { ...crack, ...recounted(crack, joint, site) },
    );
  },
};

const hasPocket = (joint: TeeJoint): joint is PocketTee => joint.pocket !== undefined;

/** A brief counts plies from the filler, its laminate from the bottom face: in a skin from the one to the other, or back. */
function recounted<Crack extends CrackSite>(crack: Crack, { pocket }: PocketTee, { laminate }: PocketSite): Crack {
  return pocket.in === 'skin' ? { ...crack, below: laminate.layup.length + 1 - crack.below } : crack;
}
