import {
  agentQuantities,
  coolantDriveQuantities,
  coolantQuantities,
  damageQuantities,
  defaultDelivery,
  deliveryQuantities,
  type GenericAgent,
  genericAgents,
  genericWater,
  sensorQuantities,
  supplyQuantities,
} from '../../flow/index.js';
import { choice, expectation, list, quantity, section, textLine, userName, type Zod } from '../../input/index.js';

/** Section `delivery`: what the channel has to carry once it is there. Ranges are those of `flow/`. */
export function deliverySection(z: Zod) {
  const { length, supply, damage, cooling, sensor } = defaultDelivery;
  return section(
    z,
    {
      length: quantity(z, deliveryQuantities.length).default(length),
      during: userName(z).optional().meta({
        description:
          'Case that acts while the channel is supplied, a name under `cases`; a pressure in it is left out. Default: the cure load alone, or none.',
      }),
      supply: section(
        z,
        {
          pressure: quantity(z, supplyQuantities.pressure).default(supply.pressure),
          reservoir: quantity(z, supplyQuantities.reservoir).exactOptional(),
          flowLimit: quantity(z, supplyQuantities.flowLimit).exactOptional(),
          vented: z
            .boolean({ error: () => expectation('true or false', 'write one of these without quotes') })
            .default(supply.vented)
            .meta({ description: 'The air ahead of the liquid escapes; otherwise it is trapped and compressed.' }),
        },
        'What pushes the healing agent into the channel.',
      ).prefault({}),
      agents: list(z, agent(z), {
        of: `agents: ${agentNames.join(', ')}, or values of your own`,
        atLeast: 1,
        atMost: 20,
        sentence: 'Healing agents to compare.',
      }).default([...agentNames]),
      damage: section(
        z,
        {
          shape: choice(
            z,
            ['disc', 'strip'],
            'Disc: the delamination crosses the channel and fills in circles; strip: it lies along the channel and fills sideways.',
          ).default(damage.shape),
          aspect: quantity(z, damageQuantities.aspect).default(damage.aspect),
          opening: quantity(z, damageQuantities.opening).default(damage.opening),
          areaFrom: quantity(z, damageQuantities.areaFrom).default(damage.areaFrom),
          areaTo: quantity(z, damageQuantities.areaTo).default(damage.areaTo),
          leastShare: quantity(z, damageQuantities.leastShare).default(damage.leastShare),
        },
        'Delaminations to heal: one shape and opening, a range of sizes.',
      ).prefault({}),
      cooling: section(
        z,
        {
          coolant: coolant(z).prefault(genericWater),
          pressureDrop: quantity(z, coolantDriveQuantities.pressureDrop).default(cooling.pressureDrop),
          flowLimit: quantity(z, coolantDriveQuantities.flowLimit).exactOptional(),
        },
        'A coolant that is pumped through the channel.',
      ).prefault({}),
      sensor: section(
        z,
        { diameter: quantity(z, sensorQuantities.diameter).default(sensor.diameter) },
        'A sensor that lies in the channel.',
      ).prefault({}),
    },
    'What the channel carries: healing agents, a coolant, a sensor.',
  ).prefault({});
}

const agentNames = Object.keys(genericAgents) as [GenericAgent, ...GenericAgent[]];

/** A built-in agent by its name, or the values of the user's own. */
function agent(z: Zod) {
  const own = section(
    z,
    {
      name: liquidName(z, 'Name of the agent in results.'),
      viscosity: quantity(z, agentQuantities.viscosity),
      gelTime: quantity(z, agentQuantities.gelTime),
      viscosityGrowth: quantity(z, agentQuantities.viscosityGrowth).default(1),
      volumeChange: quantity(z, agentQuantities.volumeChange),
      surfaceTension: quantity(z, agentQuantities.surfaceTension).default(0),
      contactAngle: quantity(z, agentQuantities.contactAngle).default(90),
      largestGap: quantity(z, agentQuantities.largestGap),
      density: quantity(z, agentQuantities.density).default(1100),
      tensileStrength: quantity(z, agentQuantities.tensileStrength).exactOptional(),
      shearStrength: quantity(z, agentQuantities.shearStrength).exactOptional(),
      fatigueSlope: quantity(z, agentQuantities.fatigueSlope).exactOptional(),
    },
    'An agent of your own. What has no default stands on its data sheet.',
  );
  const generic = choice(z, agentNames, 'A built-in kind, with typical values to be replaced by your data sheet.');
  return z
    .union([generic, own], {
      error: () =>
        expectation(
          `one of ${agentNames.join(', ')}, or a mapping of an agent's values`,
          'take one of these names or write the values of the data sheet',
        ),
    })
    .meta({ description: 'One healing agent.' });
}

function coolant(z: Zod) {
  return section(
    z,
    {
      name: liquidName(z, 'Name of the coolant in results.'),
      viscosity: quantity(z, coolantQuantities.viscosity),
      density: quantity(z, coolantQuantities.density),
      heatCapacity: quantity(z, coolantQuantities.heatCapacity),
      conductivity: quantity(z, coolantQuantities.conductivity).exactOptional(),
    },
    `The liquid; whole, as properties belong together. Default: ${genericWater.name}.`,
  );
}

const liquidName = (z: Zod, sentence: string) => textLine(z, 60, sentence);
