import type { Joint, TeeJoint } from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import type { Layup } from '../material/index.js';
import type { MaterialBook } from './resolve-materials.js';
import type { BriefData } from './schema.js';

type TeeData = Extract<BriefData['host'], { kind: 'tee' }>;

const mm = (length: number) => `${Number(length.toPrecision(6))} mm`;

/** @returns `undefined`, with problems added, if there is no such joint */
export function resolveJoint(host: BriefData['host'], book: MaterialBook, problems: ProblemList): Joint | undefined {
  if (host.kind === 'tee') return resolveTee(host, book, problems);
  const material = book.find(host.material, ['host', 'material']);
  return material === undefined ? undefined : { kind: 'plate', material };
}

function resolveTee(host: TeeData, book: MaterialBook, problems: ProblemList): TeeJoint | undefined {
  const overlaminatePly = book.find(host.overlaminate.ply, ['host', 'overlaminate', 'ply']);
  const skinPly = book.find(host.skin.ply, ['host', 'skin', 'ply']);
  const filler = book.find(host.filler.ply, ['host', 'filler', 'ply']);

  const { layup, plyThickness } = host.overlaminate;
  if (typeof plyThickness !== 'number' && plyThickness.length !== layup.length)
    problems.add(
      ['host', 'overlaminate', 'plyThickness'],
      `one thickness for all plies, or ${layup.length}, one for each angle of layup`,
      'give as many thicknesses as angles',
    );
  const thicknesses = layup.map((_, i) => (typeof plyThickness === 'number' ? plyThickness : (plyThickness[i] ?? 0)));
  const thickness = thicknesses.reduce((sum, one) => sum + one, 0);
  const { bendRadius } = host;
  // A sum of plies falls short of their nominal thickness by rounding: nine of 0.3 mm are not quite 2.7 mm.
  if (!(bendRadius > thickness * (1 + 1e-9)))
    problems.add(
      ['host', 'bendRadius'],
      `more than the thickness of the overlaminate, ${mm(thickness)} (${layup.length} plies)`,
      'take a larger bend radius, fewer plies or thinner ones: the free surface of the bend has the radius bendRadius - thickness',
      mm(bendRadius),
    );
  const { halfSpan } = host.skin;
  if (!(halfSpan >= bendRadius + host.foot.length))
    problems.add(
      ['host', 'skin', 'halfSpan'],
      `at least bendRadius + foot.length = ${mm(bendRadius + host.foot.length)}`,
      'the feet must lie on the skin: take a longer skin or a shorter foot',
      mm(halfSpan),
    );

  if (overlaminatePly === undefined || skinPly === undefined || filler === undefined) return undefined;
  const overlaminate = layup.map((angle, i) => ({ thickness: thicknesses[i]!, angle, ply: overlaminatePly }));
  const skinAngles = host.skin.layup === 'quasi-isotropic' ? (['quasi-isotropic'] as const) : host.skin.layup;
  const skin: Layup = skinAngles.map((angle) => ({
    thickness: host.skin.thickness / skinAngles.length,
    angle,
    ply: skinPly,
  }));
  return {
    kind: 'tee',
    bendRadius,
    overlaminate,
    webHeight: host.web.height,
    footLength: host.foot.length,
    skinHalfSpan: halfSpan,
    skin,
    filler,
    support: host.support,
  };
}
