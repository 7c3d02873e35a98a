import type { z } from 'zod/mini';
import { choice, type ProblemList, quantity, type Zod } from '../../../input/index.js';
import { layupThickness } from '../../../material/index.js';
import type { MaterialBook } from '../../contract.js';
import { type LaminateJoint, pocketUnion, resolvePocket } from '../../laminate/index.js';
import type { TeeJoint, TeePocket } from '../tee.js';
import { levelOf, pocketedLayup, roomAround } from './site.js';

/** Section `pocket` of a tee. `more`: further fields. */
export function teePocketSection<More extends z.core.$ZodShape>(z: Zod, more: More) {
  return pocketUnion(z, 'counted from 1 at the filler', {
    ...more,
    in: z.default(
      choice(
        z,
        ['bend', 'foot', 'skin'],
        'Which laminate holds it: the overlaminate in the right bend or its foot, or the skin.',
      ),
      'bend',
    ),
    turn: z.default(
      quantity(z, {
        unit: 'deg',
        above: 0,
        atMost: 90,
        sentence: 'In a bend: how far round it the middle of the pocket lies, from 0 at the foot to 90 at the web.',
      }),
      45,
    ),
    at: z.optional(
      quantity(z, {
        unit: 'mm',
        atLeast: -10_000,
        atMost: 10_000,
        sentence:
          'In foot or skin: distance of the middle of the pocket from the middle of the joint. Default: the middle of the right foot; of the skin, below the filler.',
      }),
    ),
  });
}

export type TeePocketSection = z.output<ReturnType<typeof teePocketSection<Record<never, never>>>>;

const number = (value: number) => String(Number(value.toPrecision(4)));

/** Adds problems where a tee can have no such pocket; what is returned then stands in for it. `joint`: without it. */
export function resolveTeePocket(
  given: TeePocketSection,
  joint: TeeJoint,
  book: MaterialBook,
  problems: ProblemList,
): TeePocket | undefined {
  const resin = book.find(given.resin, ['host', 'pocket', 'resin']);
  const where = given.in;
  const layup = pocketedLayup(joint, where);
  if (layup.length < 2) {
    problems.add(
      ['host', 'pocket', 'in'],
      `a laminate of at least 2 plies: the pocket lies between them; the ${where === 'skin' ? 'skin' : 'overlaminate'} has ${layup.length}`,
      where === 'skin'
        ? 'give the skin its plies as a layup instead of smearing them'
        : 'give the overlaminate more plies',
    );
    return undefined;
  }
  if (where === 'bend' && given.at !== undefined)
    problems.add(
      ['host', 'pocket', 'at'],
      'no `at` in a bend',
      'write turn, the angle round the bend in degrees, or take in: foot or in: skin',
    );
  if (given.heights !== undefined && given.made === 'drape')
    problems.add(
      ['host', 'pocket', 'heights'],
      'one height: in a tee a search cannot choose it yet',
      'leave it out and give height; in a flat laminate (host.kind: laminate) heights serve',
    );
  const form = resolvePocket(
    given,
    {
      thicknesses: layup.map(({ thickness }) => thickness),
      faces: 'both-flat',
      countedFrom: where === 'skin' ? 'top' : 'bottom',
    },
    problems,
  );
  const at =
    where === 'bend'
      ? (given.turn * Math.PI) / 180
      : (given.at ?? (where === 'foot' ? joint.bendRadius + joint.footLength / 2 : 0));
  checkRoom({ in: where, at, form, resin }, { layup, pocket: form }, joint, problems);
  return { in: where, at, form, resin };
}

/** A pocket and what ends its laminate keep this many of the laminate's thicknesses and of the bend radius apart: stresses are singular at the tips of the filler. */
const fromEnds = { thicknesses: 0.25, radii: 0.1 };

function checkRoom(
  { in: where, at, form }: TeePocket,
  laminate: Pick<LaminateJoint, 'layup' | 'pocket'>,
  joint: TeeJoint,
  problems: ProblemList,
): void {
  const { bendRadius: R, footLength, skinHalfSpan } = joint;
  const level = levelOf(laminate);
  const half = form.made === 'cut' ? form.halfWidth : form.halfLength;
  const needed = half + Math.max(fromEnds.thicknesses * layupThickness(laminate.layup), fromEnds.radii * R);
  const [before, after] = roomAround(joint, where, at, level);
  if (before >= needed && after >= needed) return;
  const size = `the pocket reaches ${number(half)} mm to both sides and keeps ${number(needed - half)} mm more`;
  if (where === 'bend') {
    const arc = R - level;
    const least = (needed / arc) * (180 / Math.PI);
    problems.add(
      ['host', 'pocket', 'turn'],
      least < 45
        ? `${number(least)} to ${number(90 - least)} degrees: ${size} from the ends of the bend`
        : `a pocket that lies in the bend with both its ends: the bend is ${number((Math.PI / 2) * arc)} mm long there, and ${size}`,
      least < 45
        ? 'place it nearer to the middle of the bend, or make it shorter: outside of the bend take in: foot'
        : 'take a shorter pocket or a larger bend radius',
    );
    return;
  }
  const runs =
    where === 'foot'
      ? [[R, R + footLength]]
      : [
          [-skinHalfSpan, -R - footLength],
          [-R - footLength, -R],
          [-R, R],
          [R, R + footLength],
          [R + footLength, skinHalfSpan],
        ];
  const places = runs
    .map(([from, to]) => [from! + needed, to! - needed] as const)
    .filter(([from, to]) => from <= to)
    .map(([from, to]) => `${number(from)} to ${number(to)}`);
  problems.add(
    ['host', 'pocket', 'at'],
    places.length === 0
      ? `a ${where} with room for the pocket: ${size}`
      : `${places.join(' or ')} mm from the middle of the joint: ${size} from where filler, feet and skin end`,
    places.length === 0 ? 'take a shorter pocket' : 'move it, or make it shorter',
    `${number(at)} mm`,
  );
}
