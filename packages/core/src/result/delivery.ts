import type { Zod } from '../input/index.js';
import { byName, figure, flag, group, listOf, type Of, text, unbounded, word } from './figure.js';
import { allow, header } from './header.js';

const obstacles = ['entry', 'trapped air', 'shrinkage', 'gap', 'volume', 'gel', 'pressure'] as const;

function regime(z: Zod) {
  return group(
    z,
    {
      reynolds: figure(z, '1', 'Reynolds number on hydraulic diameter and mean velocity.'),
      kind: word(z, ['laminar', 'transition', 'turbulent'], 'Between Reynolds numbers of 2300 and 4000 it is neither.'),
    },
    'Regime of the flow.',
  );
}

function flow(z: Zod) {
  return group(
    z,
    {
      area: figure(z, 'mm²', 'Area of the channel.'),
      perimeter: figure(z, 'mm', 'Wetted perimeter.'),
      hydraulicDiameter: figure(z, 'mm', 'Four times area over perimeter.'),
      conductance: figure(z, 'mm⁴', 'Laminar flow rate times viscosity over pressure gradient.'),
      poiseuilleNumber: figure(z, '1', 'Fanning friction factor times Reynolds number, laminar.'),
    },
    'The channel as a duct.',
  );
}

function cooling(z: Zod) {
  return group(
    z,
    {
      flowRate: figure(z, 'mm³/s', 'Flow of the coolant.'),
      velocity: figure(z, 'mm/s', 'Mean velocity.'),
      regime: regime(z),
      limitedBy: word(z, ['pressure', 'flow'], 'What sets the flow: the pressure, or the most that the pump gives.'),
      pressureDrop: figure(z, 'MPa', 'From the supply to the end of the channel, at this flow.'),
      runIn: figure(z, 'mm', 'Length until the velocity profile of laminar flow is developed.'),
      heatCapacityRate: figure(z, 'W/K', 'Heat carried per kelvin that the coolant warms up.'),
      wettedPerimeter: figure(z, 'mm', 'Wetted perimeter.'),
      wettedArea: figure(z, 'mm²', 'Wetted area over the length.'),
      wall: z.exactOptional(
        group(
          z,
          {
            nusselt: figure(z, '1', 'Nusselt number on the hydraulic diameter, averaged over the length.'),
            coefficient: figure(z, 'W/(m² K)', 'Heat transfer coefficient.'),
            rate: figure(z, 'W/K', 'Heat per kelvin by which the wall is warmer than the coolant that enters.'),
          },
          'Heat from the wall; left out where the conductivity of the coolant is not known.',
        ),
      ),
    },
    'What a coolant carries.',
  );
}

function healing(z: Zod) {
  return group(
    z,
    {
      agent: text(z, 'Name of the agent.'),
      healed: flag(z, 'Whether it heals the damage.'),
      reasons: listOf(z, word(z, obstacles, 'A reason.'), 'Why not.'),
      pressure: figure(z, 'MPa', 'Pressure used: of the supply, or the most that the edge bears.'),
      pressureLimit: unbounded(z, 'MPa', 'Most pressure that the edge bears.'),
      primingTime: unbounded(z, 's', 'From the inlet until the front reaches the damage.'),
      fillTime: unbounded(z, 's', 'Until the damage holds enough.'),
      gelTime: figure(z, 's', 'Time to gel.'),
      share: figure(z, '1', "Share of the damage's volume that holds cured agent in the end."),
      volumeNeeded: figure(z, 'mm³', 'Liquid in channel and damage.'),
      volumeAvailable: unbounded(z, 'mm³', 'Liquid at hand.'),
      flowRate: figure(z, 'mm³/s', 'Flow in the primed channel before the damage resists.'),
      regime: regime(z),
      flowLimitedBy: word(z, ['pressure', 'flow'], "What sets it: the supply's pressure, or its most flow."),
    },
    'One damage healed by one agent, or why not.',
  );
}

function window(z: Zod) {
  return z.union([
    group(
      z,
      {
        areaFrom: figure(z, 'mm²', 'Smallest damage that is healed.'),
        areaTo: figure(z, 'mm²', 'Largest damage that is healed.'),
        volumeFrom: figure(z, 'mm³', 'Smallest volume.'),
        volumeTo: figure(z, 'mm³', 'Largest volume.'),
        limitBelow: word(z, ['range', 'trapped air'], 'What ends the window below.'),
        limitAbove: word(z, ['range', 'gel', 'volume'], 'What ends it above.'),
      },
      'Damages that are healed.',
    ),
    group(
      z,
      { obstacle: word(z, ['entry', 'trapped air', 'shrinkage', 'gap', 'volume', 'gel'], 'What stands in the way.') },
      'No damage is healed.',
    ),
  ]);
}

function delivered(z: Zod) {
  return group(
    z,
    {
      flow: flow(z),
      cooling: cooling(z),
      sensor: group(
        z,
        {
          largest: group(
            z,
            {
              x: figure(z, 'mm', 'Its centre.'),
              y: figure(z, 'mm', 'Its centre.'),
              radius: figure(z, 'mm', 'Its radius.'),
            },
            'Largest circle in the outline.',
          ),
          fits: flag(z, 'Whether the sensor asked for fits; true where none is asked for.'),
          flowShare: figure(z, '1', 'Flow beside the sensor over flow without.'),
        },
        'A round sensor in the channel.',
      ),
      healing: listOf(
        z,
        group(
          z,
          {
            agent: text(z, 'Name of the agent.'),
            caution: z.exactOptional(text(z, 'Where its values come from.')),
            smallestDamage: healing(z),
            largestDamage: healing(z),
            window: z.meta(window(z), { description: 'Damages of the range that are healed.' }),
            reach: z.meta(window(z), { description: 'The same without a range: how far the agent goes.' }),
          },
          'One agent.',
        ),
        'One per agent, in the order of the brief.',
      ),
      repair: z.meta(z.exactOptional(repair(z)), {
        description: 'What repair gives back; left out on a plate and where nothing fails.',
      }),
      edge: z.exactOptional(
        group(
          z,
          {
            stressPerPressure: figure(z, '1', 'Peak hoop tension per internal pressure.'),
            allowedStress: figure(z, 'MPa', 'Hoop tension that pressure may add.'),
          },
          'What the edge bears of the supply; left out where the stress model does not hold.',
        ),
      ),
    },
    'What one channel delivers.',
  );
}

function repairedPlace(z: Zod) {
  return group(
    z,
    {
      place: text(z, 'The place.'),
      sound: figure(z, '1', 'Load factor at which it fails, sound.'),
      loadFactor: figure(z, '1', 'The same after its repair; never more.'),
      tensileStrength: figure(z, 'MPa', 'Tension that it bears healed.'),
      shearStrength: figure(z, 'MPa', 'Shear that it bears healed.'),
    },
    'One repaired place.',
  );
}

function agentRepair(z: Zod) {
  const share = (sentence: string) => z.exactOptional(figure(z, '1', sentence));
  return group(
    z,
    {
      agent: text(z, 'Name of the agent.'),
      tensileStrength: z.exactOptional(
        figure(z, 'MPa', 'Tension that the healed place bears; left out where the agent has no such data.'),
      ),
      shearStrength: z.exactOptional(figure(z, 'MPa', 'Shear that it bears.')),
      tensileShare: share('The tension as a share of the sound place.'),
      shearShare: share('The shear as a share of the sound place.'),
      loadFactor: z.exactOptional(figure(z, '1', 'Load factor of the repaired joint.')),
      share: share('The same over that of the sound joint, static.'),
      byToughness: z.exactOptional(
        flag(z, 'Whether the toughness of the healed crack, not the strength, rules there.'),
      ),
      cycledShare: share('The same of loads that act `cycles` times, by the stress-life slopes.'),
      places: z.exactOptional(
        listOf(z, repairedPlace(z), 'Every place that can fail in that case, repaired by itself; the weakest first.'),
      ),
    },
    'What one agent gives back.',
  );
}

/** What one agent gives back of a joint that failed. */
export interface AgentRepair extends Of<typeof agentRepair> {}

function repair(z: Zod) {
  return group(
    z,
    {
      case: text(z, 'The case of loads in which the joint fails first.'),
      place: text(z, 'Where it fails first, and is repaired.'),
      crackMeets: z.exactOptional(
        flag(z, 'Whether a crack from there meets the channel; `crackMeets` of `check` says how it goes.'),
      ),
      loadFactor: figure(z, '1', 'Load factor of the sound joint with its channel.'),
      cycles: figure(z, '1', 'Cycles at which loads that act again and again are compared.'),
      agents: listOf(z, agentRepair(z), 'One per agent, in the order of the brief.'),
    },
    'What repair gives back where the joint fails first, if the agent fills the damage.',
  );
}

/** What repair gives back where a joint fails first. */
export interface RepairReport extends Of<typeof repair> {}

/** One channel with what it delivers: mm, N, MPa, s. */
export interface DeliveredChannel extends Of<typeof delivered> {}

function wish(z: Zod) {
  return group(
    z,
    {
      length: figure(z, 'mm', 'Length of the channel from the inlet to the damage.'),
      supply: group(
        z,
        {
          pressure: figure(z, 'MPa', 'Gauge pressure at the inlet.'),
          reservoir: z.exactOptional(figure(z, 'mm³', 'Liquid at hand.')),
          flowLimit: z.exactOptional(figure(z, 'mm³/s', 'What it gives at most.')),
          vented: flag(z, 'The air ahead of the front escapes.'),
        },
        'Supply.',
      ),
      agents: listOf(
        z,
        group(
          z,
          {
            name: text(z, 'Name of the agent.'),
            viscosity: figure(z, 'mPa s', 'Of the fresh agent.'),
            gelTime: figure(z, 's', 'From mixing to gel.'),
            viscosityGrowth: figure(z, '1', 'Viscosity at gel over that of the fresh agent.'),
            volumeChange: figure(z, '1', 'Relative change of volume from liquid to cured.'),
            surfaceTension: figure(z, 'mN/m', 'Surface tension.'),
            contactAngle: figure(z, 'degrees', 'Contact angle.'),
            largestGap: figure(z, 'mm', 'Widest gap that it hardens in.'),
            density: figure(z, 'kg/m³', 'Density.'),
            tensileStrength: z.exactOptional(figure(z, 'MPa', 'Of the hardened agent or its bond.')),
            shearStrength: z.exactOptional(figure(z, 'MPa', 'Of the same.')),
            bondTensileStrength: z.exactOptional(figure(z, 'MPa', 'Of its bond at an interface.')),
            bondShearStrength: z.exactOptional(figure(z, 'MPa', 'Of the same.')),
            toughnessShare: z.exactOptional(
              figure(z, '1', 'Toughness of a healed crack over that of the sound material.'),
            ),
            fatigueSlope: z.exactOptional(figure(z, '1', 'Slope of its stress-life line.')),
            caution: z.exactOptional(text(z, 'Where its values come from.')),
          },
          'A healing agent.',
        ),
        'Agents to heal with.',
      ),
      damage: group(
        z,
        {
          shape: word(z, ['disc', 'strip'], 'Shape.'),
          aspect: figure(z, '1', 'Of a strip: reach over length of its mouth.'),
          opening: figure(z, 'mm', 'Distance of its faces.'),
          areaFrom: figure(z, 'mm²', 'Smallest.'),
          areaTo: figure(z, 'mm²', 'Largest.'),
          leastShare: figure(z, '1', 'Share of its volume that cured agent must take up.'),
        },
        'Delaminations to heal.',
      ),
      cooling: group(
        z,
        {
          coolant: group(
            z,
            {
              name: text(z, 'Name.'),
              viscosity: figure(z, 'mPa s', 'Viscosity.'),
              density: figure(z, 'kg/m³', 'Density.'),
              heatCapacity: figure(z, 'J/(kg K)', 'Heat capacity.'),
              conductivity: z.exactOptional(figure(z, 'W/(m K)', 'Thermal conductivity.')),
            },
            'The coolant.',
          ),
          pressureDrop: figure(z, 'MPa', 'From the supply to the end of the channel.'),
          flowLimit: z.exactOptional(figure(z, 'mm³/s', 'What the pump gives at most.')),
        },
        'The coolant and what drives it.',
      ),
      sensor: group(z, { diameter: figure(z, 'mm', 'Of a round sensor; 0: none.') }, 'A sensor in the channel.'),
      during: group(
        z,
        {
          name: text(z, 'Name of the case.'),
          factors: byName(z, figure(z, '1', 'Factor of a load.'), 'How many times each load acts.'),
        },
        'The case that acts meanwhile.',
      ),
    },
    'What the channel has to deliver.',
  );
}

export function delivery(z: Zod) {
  return group(
    z,
    {
      ...header(z, 'deliver'),
      connected: z.exactOptional(
        word(z, ['parallel', 'series'], 'How several channels, or those of a row, are supplied; left out for one.'),
      ),
      number: z.exactOptional(figure(z, '1', 'Channels side by side; left out for one and for a row.')),
      channel: delivered(z),
      reference: delivered(z),
      perMetre: z.exactOptional(
        group(
          z,
          {
            pitch: figure(z, 'mm', 'Distance of neighbours, from middle to middle.'),
            circuits: figure(z, '1', 'Channels that are supplied in a metre of width; in series two make one.'),
            area: figure(z, 'mm²', 'Area of all channels.'),
            flowRate: figure(z, 'mm³/s', 'Flow of the coolant.'),
            heatCapacityRate: figure(z, 'W/K', 'Heat carried per kelvin that the coolant warms up.'),
            wallRate: z.exactOptional(
              figure(
                z,
                'W/K',
                'Heat per kelvin by which walls are warmer than the coolant that enters; left out where the conductivity of the coolant is not known.',
              ),
            ),
          },
          'All channels in a metre of width of an endless row; left out where there is none.',
        ),
      ),
      ratio: group(
        z,
        { area: figure(z, '1', 'Of the areas.'), flow: figure(z, '1', 'Of the laminar flows.') },
        'The channel over the reference.',
      ),
      delivery: wish(z),
      allow: allow(z),
    },
    'The result of deliver.',
  );
}

/** The result of `deliver`. Times that never come and limits that are not there are Infinity. */
export interface DeliveryDocument extends Of<typeof delivery> {}
