import { doubtsAbout, rounded, signed, tellDoubts } from '../../input/index.js';
import { cureLoad, type LoadDefinition, pressureLoad } from '../load.js';

// Usual sizes: common practice, no source.

/** What can act on a laminate. */
export const laminateLoads: readonly LoadDefinition[] = [
  {
    name: 'stretch',
    sentence: 'The laminate is pulled (negative: pushed) along, across the channel; by a strain, a force, or both.',
    sizes: {
      strain: {
        unit: '1',
        atLeast: -0.1,
        atMost: 0.1,
        sentence:
          'Strain of the laminate far from the pocket, of a row the mean over a pitch; not in percent: 0.001 is 0.1 %.',
        default: 0,
      },
      force: {
        unit: 'N/mm',
        atLeast: -100_000,
        atMost: 100_000,
        sentence: 'Force along the laminate, per length of channel; through the middle of the end faces.',
        default: 0,
      },
    },
    example: '{ strain: 0.001 }',
    doubts: ({ strain = 0, force = 0 }) => [
      ...(strain === 0
        ? []
        : tellDoubts(doubtsAbout('loads.stretch', 'strain', strain, '1', signed(strain, 1e-5, 0.02)))),
      ...(force === 0
        ? []
        : tellDoubts(doubtsAbout('loads.stretch', 'force', force, 'N/mm', signed(force, 0.05, 10_000)))),
      ...(strain !== 0 && force !== 0
        ? [
            `loads.stretch: the strain ${rounded(strain)} and the force ${rounded(force)} N/mm act together, one on top of the other`,
          ]
        : []),
    ],
  },
  {
    name: 'bend',
    sentence: 'The laminate is bent by a pair of end moments.',
    sizes: {
      moment: {
        unit: 'N mm/mm',
        atLeast: -1_000_000,
        atMost: 1_000_000,
        sentence: 'Moment at both ends, per length of channel; positive puts the top in tension.',
        default: 100,
      },
    },
    example: '{ moment: 100 }',
    doubts: ({ moment = 0 }) =>
      tellDoubts(doubtsAbout('loads.bend', 'moment', moment, 'N mm/mm', signed(moment, 0.1, 200_000))),
  },
  {
    name: 'shear',
    sentence:
      'The laminate is sheared through its thickness, as in a short beam; the ends hold the moment, so that there is none at the pocket.',
    sizes: {
      force: {
        unit: 'N/mm',
        atLeast: -100_000,
        atMost: 100_000,
        sentence: 'Force through the thickness, per length of channel: up at the right end, down at the left.',
        default: 20,
      },
    },
    example: '{ force: 20 }',
    doubts: ({ force = 0 }) =>
      tellDoubts(doubtsAbout('loads.shear', 'force', force, 'N/mm', signed(force, 0.05, 2000))),
  },
  {
    name: 'flatwise',
    sentence:
      'The laminate is pulled open through its thickness on both faces (flatwise tension), as by an opening bend.',
    sizes: {
      stress: {
        unit: 'MPa',
        atLeast: -10_000,
        atMost: 10_000,
        sentence: 'Tension through the thickness.',
        default: 5,
      },
    },
    example: '{ stress: 5 }',
    doubts: ({ stress = 0 }) =>
      tellDoubts(doubtsAbout('loads.flatwise', 'stress', stress, ['MPa', 'GPa', 'kPa'], signed(stress, 0.01, 200))),
  },
  cureLoad,
  pressureLoad,
];
