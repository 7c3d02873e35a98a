import { InputError, type InputProblem } from '../errors.js';
import { curvatureOutline } from './curvature.js';
import type { CurvatureForm } from './curvature-splines.js';
import type { Curve } from './family.js';

/** An outline by curvature: what is fixed of it, and its values. Plain data. */
export interface CurvatureDesign {
  readonly form: CurvatureForm;
  readonly values: Float64Array;
}

/** Its name in files: the free form of the spline. */
export const curvatureFamily = 'spline';

/** All of a design as named numbers, as channel files hold outlines. */
export function curvatureParameters({ form, values }: CurvatureDesign): Record<string, number> {
  const places = form.mirror ? ['y', 'length'] : ['x', 'y', 'turn', 'length'];
  const named: [string, number][] = [...values].map((value, k) => [
    places[k] ?? `curvature${k - places.length + 1}`,
    value,
  ]);
  const numbered = (name: string, list: Float64Array) => {
    for (const [k, value] of list.entries()) named.push([`${name}${k + 1}`, value]);
  };
  numbered('knot', form.knots);
  numbered('even', form.spacing.even);
  numbered('odd', form.spacing.odd);
  return Object.fromEntries(named);
}

/** Units of what an outline by curvature holds. */
export function curvatureUnit(name: string): string {
  if (name.startsWith('curvature')) return '1/mm';
  if (name === 'turn') return 'deg';
  return name === 'x' || name === 'y' || name === 'length' ? 'mm' : '1';
}

/** Whether named numbers are those of an outline by curvature, not of another spline. */
export const isCurvature = (parameters: Readonly<Record<string, number>>): boolean =>
  Object.hasOwn(parameters, 'curvature1');

/** Nodes to a coefficient, over the whole turn, that a peak stress needs at least. */
const nodesPerPiece = 2.4;

/** The outline of named numbers; closed again, as they may have been rounded. Throws InputError for numbers that are no such outline. */
export function curvatureCurve(parameters: Readonly<Record<string, number>>): Curve {
  const { form, values } = curvatureDesign(parameters);
  const outline = curvatureOutline(form);
  const bound = values.slice(outline.lengthAt + 1).reduce((most, c) => Math.max(most, Math.abs(c)), 0);
  if (!outline.close(values, 1.001 * bound))
    throw new InputError({
      path: 'parameters',
      expected: 'an outline that closes',
      received: 'one that does not',
      remedy: 'take the numbers as the search wrote them',
    });
  const turns = form.mirror ? 2 : 1;
  return {
    mirror: form.mirror,
    fewestNodes: 16 * Math.ceil((nodesPerPiece * turns * outline.coefficients) / 16),
    place: (nodes) => outline.place(values, nodes),
  };
}

function curvatureDesign(parameters: Readonly<Record<string, number>>): CurvatureDesign {
  const mirror = !Object.hasOwn(parameters, 'x');
  const places = mirror ? ['y', 'length'] : ['x', 'y', 'turn', 'length'];
  const series = (name: string): Float64Array => {
    const list: number[] = [];
    while (Object.hasOwn(parameters, `${name}${list.length + 1}`)) list.push(parameters[`${name}${list.length + 1}`]!);
    return Float64Array.from(list);
  };
  const [coefficients, knots, even, odd] = ['curvature', 'knot', 'even', 'odd'].map(series) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const problems: InputProblem[] = [];
  const refuse = (path: string, expected: string, received: string) =>
    problems.push({
      path: `parameters.${path}`,
      expected,
      received,
      remedy: 'take the numbers as the search wrote them',
    });
  for (const name of places) if (!Object.hasOwn(parameters, name)) refuse(name, 'a number', 'nothing');
  for (const [name, value] of Object.entries(parameters)) {
    if (!(typeof value === 'number' && Number.isFinite(value))) refuse(name, 'a finite number', String(value));
    if (!places.includes(name) && !/^(curvature|knot|even|odd)[1-9]\d*$/.test(name))
      refuse(name, `one of ${places.join(', ')}, curvature…, knot…, even…, odd…`, JSON.stringify(name));
  }
  const count = places.filter((name) => Object.hasOwn(parameters, name)).length;
  if (Object.keys(parameters).length !== count + coefficients.length + knots.length + even.length + odd.length)
    refuse('curvature1', 'numbers without gaps', 'a number left out');
  if (!(parameters.length! > 0)) refuse('length', 'more than 0 mm', String(parameters.length));
  if (coefficients.length < 4 || knots.length !== coefficients.length - 1)
    refuse(
      'knot1',
      `one knot fewer than the ${coefficients.length} curvatures, of which 4 at least`,
      String(knots.length),
    );
  if (!knots.every((knot, k) => knot > (k === 0 ? 0 : knots[k - 1]!) && knot < 1))
    refuse('knot1', 'knots that ascend between 0 and 1', [...knots].join(', '));
  if (odd.length !== (mirror ? 0 : even.length))
    refuse('odd1', 'as many as even; none of a mirror-symmetric outline', String(odd.length));
  if (problems.length > 0) throw new InputError(problems);
  const values = Float64Array.of(...places.map((name) => parameters[name]!), ...coefficients);
  return { form: { mirror, knots, spacing: { even, odd } }, values };
}
