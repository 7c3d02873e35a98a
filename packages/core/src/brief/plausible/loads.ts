import { cureLoad, type LoadCase, type LoadDefinition, type Loads } from '../../host/index.js';
import { listed, rounded } from '../../input/index.js';

/**
 * What is hardly meant in loads and cases.
 *
 * @param given whether the brief itself gives a value, by its path
 */
export function implausibleLoads(
  loads: Loads,
  cases: readonly LoadCase[],
  known: readonly LoadDefinition[],
  given: (path: readonly string[]) => boolean,
): string[] {
  return [...unsized(loads, given), ...implausibleSizes(loads, known), ...combinations(loads, cases, given(['cases']))];
}

/** What is hardly meant in the sizes of loads alone. */
export function implausibleSizes(loads: Loads, known: readonly LoadDefinition[]): string[] {
  return known.flatMap(({ name, doubts }) => (loads[name] === undefined ? [] : (doubts?.(loads[name]) ?? [])));
}

/** A load that is only named acts at a size of this program's. */
function unsized(loads: Loads, given: (path: readonly string[]) => boolean): string[] {
  return Object.entries(loads).flatMap(([name, load]) => {
    const keys = Object.keys(load);
    if (keys.some((key) => given(['loads', name, key]))) return [];
    const taken = listed(Object.entries(load).map(([key, size]) => `${key} ${size}`));
    return [`loads.${name}: no size is given; ${taken} is taken, which says nothing of your joint`];
  });
}

function combinations(loads: Loads, cases: readonly LoadCase[], casesGiven: boolean): string[] {
  const names = Object.keys(loads);
  if (!casesGiven)
    return names.length < 2
      ? []
      : [
          `cases: left out, so that ${listed(names)} each act alone; combine what acts together, for example service: { ${names.map((name) => `${name}: 1`).join(', ')} }`,
        ];
  const idle = names.filter((name) => cases.every(({ factors }) => !factors[name]));
  return [
    ...idle.map((name) => `loads.${name}: acts in no case`),
    ...cases.flatMap(({ name, factors }) =>
      Object.entries(factors).flatMap(([load, factor]) => {
        const path = `cases.${name}.${load}`;
        if (load === cureLoad.name && factor < 0 && (loads[load]?.deltaT ?? 0) < 0)
          return [
            `${path}: ${rounded(factor)} turns cooling down into heating up; with its sign lost? Then write ${rounded(-factor)}`,
          ];
        if (Math.abs(factor) >= 20)
          return [
            `${path}: the load acts ${rounded(factor)} times; given in percent? Then write ${rounded(factor / 100)}`,
          ];
        return [];
      }),
    ),
  ];
}
