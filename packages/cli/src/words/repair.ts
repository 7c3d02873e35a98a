import { placeLabel, type RepairReport } from '@lumenfront/core';

/** What the shares of repair rest on, one sentence or two each, as terminal and report say it. */
export function repairNotes({ agents, crackMeets }: RepairReport): string[] {
  const unknown = agents.filter(({ tensileStrength }) => tensileStrength === undefined);
  const tough = agents.filter(({ byToughness }) => byToughness === true);
  return [
    ...(crackMeets === false
      ? [
          'A crack from there passes the channel by: an agent gets into the damage only where that has grown to the channel.',
        ]
      : []),
    'After repair the loads alone act at a healed place, as damage has released the stress of the cure there; beside it the joint is as before, so that it bears no more. The agent is taken to fill all of the damage and to stick to both faces.',
    'Shares at many cycles go by stress-life slopes (common practice, no source): an agent as strong in a static test may do poorly in fatigue.',
    ...(unknown.length === 0
      ? []
      : [
          `No strength after repair is told of ${unknown.map(({ agent }) => agent).join(', ')}: give tensileStrength and shearStrength of the data sheet, or toughnessShare (delivery.agents).`,
        ]),
    ...(tough.length === 0
      ? []
      : [
          `Of ${tough.map(({ agent }) => agent).join(', ')} the toughness of the healed crack rules: the place bears the root of its share (toughnessShare), for cracks as long as before.`,
        ]),
  ];
}

/** Of every place that fails in the case, the load factor sound and repaired by each agent with data: names of the agents, and a row for each place. */
export function repairedPlaces({ agents }: RepairReport): {
  readonly agents: readonly string[];
  readonly rows: readonly (readonly [place: string, ...factors: number[]])[];
} {
  const known = agents.flatMap(({ agent, places }) => (places === undefined ? [] : [{ agent, places }]));
  const [first] = known;
  return {
    agents: known.map(({ agent }) => agent),
    rows: (first?.places ?? []).map(({ place, sound }, p) => [
      placeLabel(place),
      sound,
      ...known.map(({ places }) => places[p]!.loadFactor),
    ]),
  };
}
