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
  return z.prefault(
    section(
      z,
      {
        length: z.default(quantity(z, deliveryQuantities.length), length),
        during: z.meta(z.optional(userName(z)), {
          description:
            'Case that acts while the channel is supplied, a name under `cases`, without its pressure. Default: the cure load alone, or none.',
        }),
        supply: z.prefault(
          section(
            z,
            {
              pressure: z.default(quantity(z, supplyQuantities.pressure), supply.pressure),
              reservoir: z.exactOptional(quantity(z, supplyQuantities.reservoir)),
              flowLimit: z.exactOptional(quantity(z, supplyQuantities.flowLimit)),
              vented: z.meta(
                z.default(
                  z.boolean({ error: () => expectation('true or false', 'write one of these without quotes') }),
                  supply.vented,
                ),
                { description: 'The air ahead of the liquid escapes; otherwise it is trapped and compressed.' },
              ),
            },
            'What pushes the healing agent into the channel.',
          ),
          {},
        ),
        agents: z.default(
          list(z, agent(z), {
            of: `agents: ${agentNames.join(', ')}, or values of your own`,
            atLeast: 1,
            atMost: 20,
            sentence: 'Healing agents to compare.',
          }),
          [...agentNames],
        ),
        damage: z.prefault(
          section(
            z,
            {
              shape: z.default(
                choice(
                  z,
                  ['disc', 'strip'],
                  'Disc: the delamination crosses the channel and fills in circles; strip: it lies along the channel and fills sideways.',
                ),
                damage.shape,
              ),
              aspect: z.default(quantity(z, damageQuantities.aspect), damage.aspect),
              opening: z.default(quantity(z, damageQuantities.opening), damage.opening),
              areaFrom: z.default(quantity(z, damageQuantities.areaFrom), damage.areaFrom),
              areaTo: z.default(quantity(z, damageQuantities.areaTo), damage.areaTo),
              leastShare: z.default(quantity(z, damageQuantities.leastShare), damage.leastShare),
            },
            'Delaminations to heal: one shape and opening, a range of sizes.',
          ),
          {},
        ),
        cooling: z.prefault(
          section(
            z,
            {
              coolant: z.prefault(coolant(z), genericWater),
              pressureDrop: z.default(quantity(z, coolantDriveQuantities.pressureDrop), cooling.pressureDrop),
              flowLimit: z.exactOptional(quantity(z, coolantDriveQuantities.flowLimit)),
            },
            'A coolant that is pumped through the channel.',
          ),
          {},
        ),
        sensor: z.prefault(
          section(
            z,
            { diameter: z.default(quantity(z, sensorQuantities.diameter), sensor.diameter) },
            'A sensor that lies in the channel.',
          ),
          {},
        ),
      },
      'What the channel carries: healing agents, a coolant, a sensor.',
    ),
    {},
  );
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
      viscosityGrowth: z.default(quantity(z, agentQuantities.viscosityGrowth), 1),
      volumeChange: quantity(z, agentQuantities.volumeChange),
      surfaceTension: z.default(quantity(z, agentQuantities.surfaceTension), 0),
      contactAngle: z.default(quantity(z, agentQuantities.contactAngle), 90),
      largestGap: quantity(z, agentQuantities.largestGap),
      density: z.default(quantity(z, agentQuantities.density), 1100),
      tensileStrength: z.exactOptional(quantity(z, agentQuantities.tensileStrength)),
      shearStrength: z.exactOptional(quantity(z, agentQuantities.shearStrength)),
      bondTensileStrength: z.exactOptional(quantity(z, agentQuantities.bondTensileStrength)),
      bondShearStrength: z.exactOptional(quantity(z, agentQuantities.bondShearStrength)),
      toughnessShare: z.exactOptional(quantity(z, agentQuantities.toughnessShare)),
      fatigueSlope: z.exactOptional(quantity(z, agentQuantities.fatigueSlope)),
    },
    'An agent of your own. What has no default stands on its data sheet.',
  );
  const generic = choice(z, agentNames, 'A built-in kind, with typical values to be replaced by your data sheet.');
  return z.meta(
    z.union([generic, own], {
      error: () =>
        expectation(
          `one of ${agentNames.join(', ')}, or a mapping of an agent's values`,
          'take one of these names or write the values of the data sheet',
        ),
    }),
    { description: 'One healing agent.' },
  );
}

function coolant(z: Zod) {
  return section(
    z,
    {
      name: liquidName(z, 'Name of the coolant in results.'),
      viscosity: quantity(z, coolantQuantities.viscosity),
      density: quantity(z, coolantQuantities.density),
      heatCapacity: quantity(z, coolantQuantities.heatCapacity),
      conductivity: z.exactOptional(quantity(z, coolantQuantities.conductivity)),
    },
    `The liquid; whole, as properties belong together. Default: ${genericWater.name}.`,
  );
}

const liquidName = (z: Zod, sentence: string) => textLine(z, 60, sentence);
