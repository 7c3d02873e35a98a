import type { LoadCase, LoadName, Loads } from '../../host/index.js';
import { rounded } from '../../input/index.js';
import { doubtsAbout, listed, tellDoubts } from './doubt.js';

// Ranges: common practice, no source.

/**
 * What is hardly meant in loads and cases.
 *
 * @param given whether the brief itself gives a value, by its path
 */
export function implausibleLoads(
  loads: Loads,
  cases: readonly LoadCase[],
  given: (path: readonly string[]) => boolean,
): string[] {
  return [...unsized(loads, given), ...sizes(loads), ...combinations(loads, cases, given(['cases']))];
}

/** A load that is only named acts at a size of this program's. */
function unsized(loads: Loads, given: (path: readonly string[]) => boolean): string[] {
  return Object.entries(loads).flatMap(([name, load]) => {
    const keys = Object.keys(load);
    if (keys.some((key) => given(['loads', name, key]))) return [];
    const taken = listed(Object.entries(load as object).map(([key, size]) => `${key} ${size}`));
    return [`loads.${name}: no size is given; ${taken} is taken, which says nothing of your joint`];
  });
}

function sizes({ pull, side, moment, cure, pressure, farField }: Loads): string[] {
  const signed = (value: number, least: number, most: number): [number, number] =>
    value < 0 ? [-most, -least] : [least, most];
  const doubts = [
    ...(pull ? doubtsAbout('loads.pull', 'force', Math.abs(pull.force), 'N/mm', [0.5, 3000]) : []),
    ...(side ? doubtsAbout('loads.side', 'force', side.force, 'N/mm', signed(side.force, 0.05, 1000)) : []),
    ...(moment
      ? doubtsAbout('loads.moment', 'moment', moment.moment, 'N mm/mm', signed(moment.moment, 1, 200_000))
      : []),
    ...(cure ? doubtsAbout('loads.cure', 'deltaT', cure.deltaT, 'K', [-300, -20]) : []),
    ...(pressure
      ? doubtsAbout('loads.pressure', 'pressure', pressure.pressure, 'MPa', [0.002, 20], pressureUnits)
      : []),
    ...Object.entries(farField ?? {}).flatMap(([key, stress]) =>
      stress === 0 ? [] : doubtsAbout('loads.farField', key, stress, 'MPa', signed(stress, 0.01, 3000), ['GPa', 'kPa']),
    ),
  ];
  const pushed =
    pull !== undefined && pull.force < 0
      ? [`loads.pull.force: ${rounded(pull.force)} N/mm pushes the web onto the skin; a pull off the skin is positive`]
      : [];
  return [...tellDoubts(doubts), ...pushed];
}

const pressureUnits = ['bar', 'kPa', 'GPa'];

function combinations(loads: Loads, cases: readonly LoadCase[], casesGiven: boolean): string[] {
  const names = Object.keys(loads) as LoadName[];
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
        if (load === 'cure' && factor < 0 && loads.cure !== undefined && loads.cure.deltaT < 0)
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
