import {
  cureLoad,
  hostKinds,
  hostLoads,
  type Joint,
  type LoadCase,
  type LoadName,
  type Loads,
  loadsOf,
} from '../host/index.js';
import { nearestName, type ProblemList } from '../input/index.js';
import type { BriefData } from './schema.js';

/** Each takes time and memory in every outline of a search. */
const mostCases = 1000;

/** @param host as the brief gives it; `undefined` if it is faulty: then any load passes */
export function resolveLoads(loads: BriefData['loads'], host: Joint | undefined, problems: ProblemList): Loads {
  // The schema gives absent loads as keys that hold undefined, or not at all; the result has only loads that act.
  const acting = Object.fromEntries(Object.entries(loads).filter(([, load]) => load !== undefined)) as Loads;
  const names = Object.keys(acting);
  const known = host === undefined ? hostLoads() : loadsOf(host);
  const list = known.map(({ name }) => name).join(', ');
  if (host !== undefined)
    for (const name of names) {
      if (known.some((load) => load.name === name)) continue;
      const others = hostKinds().filter((other) => other.loads.some((load) => load.name === name));
      problems.add(
        ['loads', name],
        `one of the loads of a ${host.kind}: ${list}`,
        others.length === 0
          ? 'remove it'
          : `remove it, or use ${others.map((other) => `host.kind: ${other.kind}`).join(' or ')}`,
        `the load ${name}`,
      );
    }
  if (names.length === 0)
    problems.add(
      ['loads'],
      `at least one load out of ${list}`,
      `add, for example, ${known[0]!.name}: ${known[0]!.example}`,
    );
  return acting;
}

/** Without `cases`, every load is a case of its own: nothing is combined that the brief does not combine. */
export function resolveCases(cases: BriefData['cases'], loads: Loads, problems: ProblemList): LoadCase[] {
  const names = Object.keys(loads);
  // A load that the host does not know may be the one that a case asks for, by another name: one mistake.
  const isMisnamed = problems.problems.some(({ path }) => names.some((name) => path === `loads.${name}`));
  if (cases === undefined) {
    for (const name of names) {
      const sizes = Object.keys(loads[name]!);
      const path = ['loads', name, ...(sizes.length === 1 ? sizes : [])];
      if (!isLoaded(loads, name)) problems.add(path, 'a size other than 0', 'give it a size, or remove the load');
    }
    return names.map((name) => ({ name, factors: { [name]: 1 } }));
  }
  const count = Object.keys(cases).length;
  if (count === 0)
    problems.add(['cases'], 'at least one case', 'add, for example, pull-off: { pull: 1 }, or leave cases out');
  if (count > mostCases)
    problems.add(['cases'], `at most ${mostCases} cases`, 'leave out those that others cover', `${count} cases`);
  for (const [name, factors] of Object.entries(cases)) {
    for (const load of Object.keys(factors)) {
      if (names.includes(load) || isMisnamed) continue;
      const near = nearestName(load, names);
      problems.add(
        ['cases', name, load],
        `a load under loads: ${names.join(', ') || 'there are none'}`,
        near === undefined ? `add ${load} under loads, or remove it here` : `did you mean '${near}'?`,
        `the load ${JSON.stringify(load.slice(0, 60))}`,
      );
    }
    if (!Object.entries(factors).some(([load, factor]) => factor !== 0 && isLoaded(loads, load)))
      problems.add(
        ['cases', name],
        'at least one load that is not zero',
        'give one of its loads a factor and a size other than 0, or remove the case',
      );
  }
  return Object.entries(cases).map(([name, factors]) => ({ name, factors: { ...factors } as LoadCase['factors'] }));
}

/** An absent load counts as loaded here: it has been reported by its own name. */
function isLoaded(loads: Loads, name: LoadName): boolean {
  const load = Object.hasOwn(loads, name) ? loads[name] : undefined;
  return load === undefined || Object.values(load).some((size) => size !== 0);
}

/** The cured state stands alone before any load comes; a search that does not see it trades it away. */
export function cureCautions(loads: Loads, cases: readonly LoadCase[]): string[] {
  if (loads[cureLoad.name] === undefined) return [];
  const alone = cases.some(({ factors }) => {
    const acting = Object.entries(factors).filter(([, factor]) => factor !== 0);
    return acting.length === 1 && acting[0]![0] === cureLoad.name;
  });
  return alone
    ? []
    : [
        'no case holds the cured state alone (for example cured: { cure: 1 }): it comes before any other load, and the search may trade it away',
      ];
}
