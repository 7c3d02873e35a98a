import { InputError } from '../errors.js';
import { ellipseFamily } from './ellipse.js';
import type { OutlineFamily, OutlineRoom } from './family.js';
import { highestOf, lowestOf } from './measure.js';
import { lift } from './placement.js';
import { splineFamily } from './spline.js';
import { teardropFamily } from './teardrop.js';

const makers: Readonly<Record<string, (room: OutlineRoom) => OutlineFamily>> = {
  ellipse: ellipseFamily,
  teardrop: teardropFamily,
  spline: splineFamily,
};

/** Names that `createFamily` knows in every room. */
export const familyNames: readonly string[] = Object.keys(makers);

/**
 * The outline family `name`, made for a room: one of all rooms or of the room's own. Throws InputError for an unknown name or a room too
 * small for any outline.
 */
export function createFamily(name: string, room: OutlineRoom): OutlineFamily {
  const known = { ...room.families, ...makers };
  const twice = familyNames.find((built) => Object.hasOwn(room.families ?? {}, built));
  if (twice !== undefined)
    throw new InputError({
      path: 'channel.families',
      expected: `a family of one's own under another name than ${familyNames.join(', ')}`,
      received: twice,
      remedy: 'rename it',
    });
  const make = Object.hasOwn(known, name) ? known[name] : undefined;
  if (make === undefined)
    throw new InputError({
      path: 'channel.families',
      expected: `one of ${[...familyNames, ...Object.keys(room.families ?? {})].join(', ')}`,
      received: JSON.stringify(name),
      remedy: 'name a known outline family',
    });
  checkRoom(room);
  const family = standing(make(room), room.stands);
  for (const { name: parameter, lower, upper, unit } of family.parameters)
    if (!(lower < upper))
      throw new InputError({
        path: 'channel.edgeRadius',
        expected: `room for the outline family ${name}`,
        received: `${parameter} between ${lower} and ${upper} ${unit}`,
        remedy: 'ask for a smaller edge radius or wall, give the channel more room, or leave the family out',
      });
  return family;
}

/** A family whose outlines stand on or about a level, where there is one: without the parameter `y`. */
function standing(family: OutlineFamily, stands: OutlineRoom['stands']): OutlineFamily {
  const y = family.parameters.findIndex(({ name }) => name === 'y');
  if (stands === undefined || y < 0) return family;
  const { rates: _, ...rest } = family;
  const { imitate } = family;
  const all = new Float64Array(family.parameters.length);
  all[y] = (family.parameters[y]!.lower + family.parameters[y]!.upper) / 2;
  return {
    ...rest,
    parameters: family.parameters.filter((_parameter, i) => i !== y),
    place(values, nodes) {
      for (let i = 0, from = 0; i < all.length; i++) if (i !== y) all[i] = values[from++]!;
      family.place(all, nodes);
      const low = lowestOf(nodes);
      lift(nodes, 'on' in stands ? stands.on - low : stands.about - (low + highestOf(nodes)) / 2);
    },
    ...(imitate === undefined
      ? {}
      : { imitate: (nodes) => imitate.call(family, nodes).filter((_value, i) => i !== y) }),
  };
}

function checkRoom({ xMin, xMax, yMin, yMax, edgeRadius }: OutlineRoom): void {
  const smallest = Math.min(xMax - xMin, yMax - yMin);
  if (!(edgeRadius >= 0 && Number.isFinite(xMax - xMin + yMax - yMin) && smallest > 2 * edgeRadius))
    throw new InputError({
      path: 'channel.edgeRadius',
      expected: `0 to less than ${smallest / 2} mm, half the room for the channel`,
      received: String(edgeRadius),
      remedy: 'ask for a smaller edge radius or wall, or give the channel more room',
    });
}
