import { InputError } from '../errors.js';
import { createFamily } from './create-family.js';
import { curvatureCurve, curvatureFamily, isCurvature } from './curvature-data.js';
import type { Curve, OutlineData, OutlineFamily, OutlineRoom } from './family.js';
import { fitPoints } from './points.js';

/**
 * The curve of an outline given as data: a family with its parameters, or points. A family's outline is mirror-symmetric
 * unless it has a parameter `x`, whatever `room.mirror` says: a given outline shows by itself which of both it is. One with a parameter `y` lies
 * there, also in a room where others stand on a level.
 * Throws InputError for an unknown family or parameter, and for one that is missing or out of its bounds in this room.
 */
export function outlineOf(data: OutlineData, room: OutlineRoom): Curve {
  if ('points' in data) return fitPoints(data.points);
  const { parameters } = data;
  if (data.family === curvatureFamily && isCurvature(parameters)) return curvatureCurve(parameters);
  const { stands, ...anywhere } = room;
  const family = createFamily(data.family, {
    ...anywhere,
    mirror: !Object.hasOwn(parameters, 'x'),
    ...(stands === undefined || Object.hasOwn(parameters, 'y') ? {} : { stands }),
  });
  const values = checkedValues(family, parameters);
  return {
    mirror: family.mirror,
    ...(family.fewestNodes !== undefined && { fewestNodes: family.fewestNodes }),
    place(nodes) {
      family.place(values, nodes);
    },
  };
}

const shown = (value: unknown) =>
  typeof value === 'number' ? String(value) : String(JSON.stringify(value)).slice(0, 60);

function checkedValues(family: OutlineFamily, given: Readonly<Record<string, number>>): Float64Array {
  const known = family.parameters.map((parameter) => parameter.name);
  const problems = Object.keys(given)
    .filter((name) => !known.includes(name))
    .map((name) => ({
      path: `parameters.${name}`,
      expected: `a parameter of ${family.name}: ${known.join(', ')}`,
      received: JSON.stringify(name),
      remedy: 'correct or remove it',
    }));
  for (const { name, lower, upper, unit, meaning } of family.parameters) {
    const value = given[name];
    // Bounds may have been rounded where they were written down.
    const slack = 1e-9 * (upper - lower);
    if (typeof value === 'number' && value >= lower - slack && value <= upper + slack) continue;
    problems.push({
      path: `parameters.${name}`,
      expected: `${lower} to ${upper}${unit === '1' ? '' : ` ${unit}`}`,
      received: value === undefined ? 'nothing' : shown(value),
      remedy: `${value === undefined ? 'give it' : 'keep it within these bounds'}: ${meaning}`,
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  return Float64Array.from(family.parameters, ({ name }) => given[name]!);
}
