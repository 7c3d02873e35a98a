import { doubtsAbout, rounded, signed, tellDoubts } from '../../input/index.js';
import { cureLoad, type LoadDefinition, pressureLoad } from '../load.js';

const force = (sentence: string) => ({
  unit: 'N/mm',
  atLeast: -100_000,
  atMost: 100_000,
  sentence,
  default: 100,
});

// Usual sizes: common practice, no source.

/** What can act on a tee. */
export const teeLoads: readonly LoadDefinition[] = [
  {
    name: 'pull',
    sentence: 'The web is pulled off the skin.',
    sizes: { force: force('Vertical force on the web top, per length of joint.') },
    example: '{ force: 100 }',
    doubts: ({ force: size = 0 }) => [
      ...tellDoubts(doubtsAbout('loads.pull', 'force', Math.abs(size), 'N/mm', [0.5, 3000])),
      ...(size < 0
        ? [`loads.pull.force: ${rounded(size)} N/mm pushes the web onto the skin; a pull off the skin is positive`]
        : []),
    ],
  },
  {
    name: 'side',
    sentence: 'The web is pushed sideways.',
    sizes: { force: force('Horizontal force on the web top, per length of joint; positive to the right.') },
    example: '{ force: 100 }',
    doubts: ({ force: size = 0 }) =>
      tellDoubts(doubtsAbout('loads.side', 'force', size, 'N/mm', signed(size, 0.05, 1000))),
  },
  {
    name: 'moment',
    sentence: 'The skin is bent.',
    sizes: {
      moment: {
        unit: 'N mm/mm',
        atLeast: -1_000_000,
        atMost: 1_000_000,
        sentence: 'Moment at both skin ends, per length of joint; positive puts the top of the skin in tension.',
        default: 500,
      },
    },
    example: '{ moment: 500 }',
    doubts: ({ moment = 0 }) =>
      tellDoubts(doubtsAbout('loads.moment', 'moment', moment, 'N mm/mm', signed(moment, 1, 200_000))),
  },
  cureLoad,
  pressureLoad,
];
