import type { ProblemList } from '../../../input/index.js';
import type { MaterialBook } from '../../contract.js';
import { controlContour } from '../../laminate/index.js';
import type { KnownOutline } from '../tee.js';
import { openPocketTee } from './host.js';
import { wishAround } from './in-filler-mesh.js';
import { ifPossible, type KnownSection, resolveIn } from './known-section.js';
import { type PocketTee, pocketSite } from './site.js';

/** Least film of resin around a channel of known outline in a pocket, in its heights: elements go round it. */
const leastFilm = 0.05;

/** A channel of known outline in the pocket; adds problems where there can be none. */
export function resolvePocketChannel(
  given: KnownSection,
  joint: PocketTee,
  book: MaterialBook,
  problems: ProblemList,
): KnownOutline | undefined {
  const site = pocketSite(joint);
  const path = ['host', 'pocket', 'channel'];
  const known = resolveIn(given, {
    path,
    room: openPocketTee(joint, undefined, site).wholeRoom({ mirror: false }),
    border: site.border,
    least: leastFilm * (site.form.upper.at(0) - site.form.lower.at(0)),
    words: `the border of the pocket (${leastFilm} of its height)`,
    book,
    problems,
  });
  const around = known && { ...joint, pocket: { ...joint.pocket, channel: known } };
  return around && ifPossible(() => controlContour(site.laminate, wishAround(around, site)), path, problems) && known;
}
