import type { Zod } from '../input/index.js';
import { outlineOfFamily } from './design.js';
import { figure, group, listOf, type Of, word } from './figure.js';
import { allow, header, seed } from './header.js';

function wish(z: Zod) {
  const size = (unit: string, sentence: string) => figure(z, unit, sentence);
  return group(
    z,
    {
      distribution: word(z, ['normal', 'uniform'], 'Sizes are standard deviations (normal) or half ranges (uniform).'),
      samples: size('1', 'Made channels that a design is judged by.'),
      outline: size('mm', 'Form of the edge along its normal.'),
      position: size('mm', 'Position across and up, each.'),
      turn: size('degrees', 'Turn about the centroid.'),
      strength: size('1', 'All strengths of a joint together, as a share.'),
      cure: size('1', 'Size of the cure load, as a share.'),
      quantile: size('1', 'Share of made channels whose peak does not exceed the value that designs are compared by.'),
    },
    'How channels scatter.',
  );
}

function common<const Kind extends string>(z: Zod, kind: Kind) {
  return {
    ...header(z, kind),
    scatter: wish(z),
    allow: allow(z),
    seed: seed(z),
    samples: figure(z, '1', 'Made channels that a design was judged by.'),
  };
}

function spread(z: Zod) {
  return (unit: string, sentence: string) =>
    group(
      z,
      {
        mean: figure(z, unit, 'Mean.'),
        deviation: figure(z, unit, 'Standard deviation.'),
        least: figure(z, unit, 'Least.'),
        quantile05: figure(z, unit, '5 % of the samples are below.'),
        median: figure(z, unit, 'Median.'),
        quantile95: figure(z, unit, '95 % of the samples are below.'),
        most: figure(z, unit, 'Largest.'),
      },
      sentence,
    );
}

const quantilePeak = (z: Zod) =>
  z.exactOptional(
    figure(
      z,
      'MPa',
      'The peak that the quantile of all samples do not exceed. Left out where more samples are no channels than may lie beyond.',
    ),
  );
const judged = (z: Zod) => figure(z, '1', 'Samples that are channels of the joint.');

export function scatter(z: Zod) {
  const distribution = spread(z);
  return group(
    z,
    {
      ...common(z, 'scatter'),
      nominal: group(
        z,
        {
          peak: figure(z, 'MPa', 'Peak hoop tension of the worst case.'),
          loadFactor: z.exactOptional(figure(z, '1', 'Load factor to first failure.')),
          retained: z.exactOptional(figure(z, '1', 'Share of the strength without channel.')),
        },
        'The channel as drawn.',
      ),
      peak: distribution('MPa', 'Peak hoop tension of the worst case, over the samples.'),
      quantilePeak: quantilePeak(z),
      loadFactor: z.exactOptional(
        distribution('1', 'Load factor of the joint; left out on a plate, and where nothing fails.'),
      ),
      retained: z.exactOptional(distribution('1', 'Strength retained; left out on a plate, and where nothing fails.')),
      startsAtEdge: z.exactOptional(figure(z, '1', 'Share of the judged samples in which failure starts at the edge.')),
      withinAllowed: figure(z, '1', 'Share of all samples that are channels and stay within the allowed peak.'),
      judged: judged(z),
    },
    'The result of scatter --channel.',
  );
}

/** The result of `scatter --channel`. */
export interface ScatterStudyDocument extends Of<typeof scatter> {}

function scattered(z: Zod) {
  return {
    ...outlineOfFamily(z),
    area: figure(z, 'mm²', 'Area of the channel.'),
    peak: figure(z, 'MPa', 'Peak hoop tension of the worst case, as drawn.'),
    quantilePeak: quantilePeak(z),
    judged: judged(z),
    origin: word(z, ['given', 'polished'], 'Given, or made by the search.'),
  };
}

function scatterDesign(z: Zod) {
  return group(z, scattered(z), 'A design, as drawn and as it is made.');
}

/** A design of the result of `scatter --front`. */
export interface ScatterDesignDocument extends Of<typeof scatterDesign> {}

export function scatterFront(z: Zod) {
  return group(
    z,
    {
      ...common(z, 'scatter-front'),
      designs: listOf(z, scatterDesign(z), 'None has both more area and a lower quantile. By growing area.'),
      drawn: listOf(
        z,
        group(
          z,
          {
            ...scattered(z),
            design: z.exactOptional(
              figure(z, '1', 'From 1: the design that it is, or that has no less area at no higher quantile.'),
            ),
          },
          'A design of the front as drawn.',
        ),
        'Of the front of drawn channels, those that were judged beside them. By growing area.',
      ),
      evaluations: figure(z, '1', 'Made channels that were solved.'),
    },
    'The result of scatter --front.',
  );
}

/** The result of `scatter --front`. */
export interface ScatterFrontDocument extends Of<typeof scatterFront> {}
