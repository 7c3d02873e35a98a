import type { Zod } from '../input/index.js';
import { agreement, edgeExtremes, meshedEdge } from './edge.js';
import { byName, figure, group, type Of, text, unbounded } from './figure.js';
import { strengthSummary } from './strength.js';

/** What an outline is by itself. */
export function outlineFigures(z: Zod) {
  return {
    area: figure(z, 'mm²', 'Area of the channel, or of both of a pair.'),
    perimeter: figure(z, 'mm', 'Perimeter of the channel, or of both.'),
    conductance: figure(
      z,
      'mm⁴',
      'Laminar flow rate times viscosity over pressure gradient; of two channels side by side, of both.',
    ),
    width: figure(z, 'mm', 'Extent across, of each channel.'),
    height: figure(z, 'mm', 'Extent up, of each channel.'),
    pocketHeight: z.exactOptional(
      figure(z, 'mm', 'Height of the resin pocket that it lies in; left out where all channels lie in the same.'),
    ),
    wall: unbounded(z, 'mm', 'Least material between channel and laminate, and between channels.'),
    minEdgeRadius: figure(z, 'mm', 'Least radius of curvature of the edge.'),
    pair: z.exactOptional(
      group(
        z,
        {
          pitch: figure(z, 'mm', 'Distance of the two channels, from middle to middle.'),
          between: figure(z, 'mm', 'Least material between them.'),
        },
        'Of two channels, mirror images of each other; left out for one. The outline is that of the right one.',
      ),
    ),
    group: z.exactOptional(
      group(
        z,
        {
          number: figure(z, '1', 'Channels side by side.'),
          pitch: figure(z, 'mm', 'Distance of neighbours, from middle to middle.'),
          between: figure(z, 'mm', 'Least material between neighbours.'),
        },
        'Of more than two channels, neighbours mirror images of each other; left out for one and two. The outline is that of the middle one, or of the one right of the middle.',
      ),
    ),
    row: z.exactOptional(
      group(
        z,
        {
          pitch: figure(z, 'mm', 'Distance of neighbours, from middle to middle.'),
          between: figure(z, 'mm', 'Least material between the edges of neighbours.'),
          areaPerMetre: figure(z, 'mm²', 'Area of all channels in a metre of width.'),
          conductancePerMetre: figure(z, 'mm⁴', 'Conductance of all channels in a metre of width.'),
        },
        'Of a channel in an endless row; all else tells of one channel.',
      ),
    ),
  };
}

/** What the fast model says of its edge. */
export function edgeFigures(z: Zod) {
  return {
    peak: figure(z, 'MPa', 'Peak hoop tension of the worst case.'),
    worstCase: text(z, 'The case of the peak.'),
    loads: byName(z, edgeExtremes(z), 'Per load at its given size.'),
    cases: byName(z, edgeExtremes(z), 'Per case, by its name.'),
    nodes: figure(z, '1', 'Nodes of the evaluation.'),
    change: figure(
      z,
      '1',
      'Largest change of a peak with half as many nodes, over loads and cases, as a share of the largest hoop stress.',
    ),
    accuracy: z.exactOptional(
      figure(
        z,
        '1',
        'What the fast model is thought to be off by, over loads and cases, as a share of the largest hoop stress: estimated by how much its finer fields change the stress at and beside a peak. Left out where no finer ones were made.',
      ),
    ),
  };
}

function channelDesign(z: Zod) {
  return group(z, { ...outlineFigures(z), ...edgeFigures(z) }, 'What the fast model says of one outline.');
}

/** What the fast model says of one outline. */
export interface ChannelDesign extends Of<typeof channelDesign> {}

/** An outline of a family. */
export function outlineOfFamily(z: Zod) {
  return {
    family: text(z, 'Family of outlines.'),
    parameters: byName(z, figure(z, 'mm or 1', 'A parameter.'), 'Parameters of the outline in its family.'),
  };
}

/** Of what a brief leaves open. */
export function choice(z: Zod) {
  return byName(
    z,
    z.unknown(),
    'What was chosen of what the brief leaves open, by its path there; left out where nothing is open.',
  );
}

export function design(z: Zod) {
  return group(
    z,
    {
      ...outlineOfFamily(z),
      choice: z.exactOptional(choice(z)),
      ...outlineFigures(z),
      ...edgeFigures(z),
      strength: z.meta(z.exactOptional(strengthSummary(z)), {
        description: 'What it leaves of the joint, which check tells case by case; left out on a plate.',
      }),
      locallyOptimalWithin: z.exactOptional(
        figure(
          z,
          '1',
          'Share by which its peak could be lower, to first order, with all limits kept, by moves of a hundredth of its mean radius. Another shape may do better. Of an outline that slopes beside it foretold, by those. Left out where no slopes led to it.',
        ),
      ),
      meshed: z.exactOptional(meshedEdge(z)),
      difference: z.exactOptional(agreement(z)),
    },
    'A channel with its stresses and its flow; beside the independent mesh where it was solved by that as well.',
  );
}

/** A channel with its stresses and its flow, as every result holds it. */
export interface DesignDocument extends Of<typeof design> {}

/** A channel that was solved by the independent mesh as well. */
export type VerifiedDesign = DesignDocument & Required<Pick<DesignDocument, 'meshed' | 'difference'>>;

/** Whether a design was checked by the mesh. */
export function isVerified(one: DesignDocument): one is VerifiedDesign {
  return one.meshed !== undefined && one.difference !== undefined;
}
