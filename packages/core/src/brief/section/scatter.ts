import { choice, quantity, section, type Zod } from '../../input/index.js';

/**
 * Section `scatter`: what differs from one made channel to the next. The sizes are examples, to be replaced by what the user's
 * own process and material show; the 95 % quantile is common practice, without a source.
 */
export function scatterSection(z: Zod) {
  const length = (sentence: string) => quantity(z, { unit: 'mm', atLeast: 0, atMost: 1000, sentence });
  const share = (sentence: string) => quantity(z, { unit: '1', atLeast: 0, atMost: 1, sentence });
  return z.prefault(
    section(
      z,
      {
        distribution: z.default(
          choice(
            z,
            ['normal', 'uniform'],
            'Whether the sizes below are standard deviations (normal) or half ranges (uniform) of independent deviations.',
          ),
          'normal',
        ),
        samples: z.default(
          quantity(z, {
            unit: '1',
            atLeast: 20,
            atMost: 1_000_000,
            integer: true,
            sentence: 'Made channels that a design is judged by.',
          }),
          200,
        ),
        outline: z.default(
          length(
            'Form of the edge along its normal: half of its variance is size, the rest two to four waves around the edge; of several channels each by itself. The default is an example.',
          ),
          0.02,
        ),
        position: z.default(
          length(
            'Position of the channel, across and up, each; of several each by itself, so that a distance between two varies by 1.4 times as much. The default is an example.',
          ),
          0.05,
        ),
        turn: z.default(
          quantity(z, {
            unit: 'deg',
            atLeast: 0,
            atMost: 180,
            sentence: 'Turn of the channel about its centroid. The default is an example.',
          }),
          0.5,
        ),
        strength: z.default(
          share(
            'All strengths of a joint together, as a share of them. The default is an example; take the scatter of your own tests.',
          ),
          0.05,
        ),
        cure: z.default(share('Size of the cure load, as a share of it. The default is an example.'), 0.05),
        quantile: z.default(
          quantity(z, {
            unit: '1',
            atLeast: 0.5,
            below: 1,
            sentence:
              'Share of made channels whose peak must not exceed the value that designs are compared by. The default is common practice, without a source.',
          }),
          0.95,
        ),
      },
      'How made channels and joints differ from what is drawn and given; the sizes are examples to be replaced by your own.',
    ),
    {},
  );
}
