import { rounded } from '../../input/index.js';
import type { Ply } from '../../material/index.js';

/** An allowed stress that the material around the channel does not bear, or that leaves nearly all of it unused. */
export function implausibleAllow(allow: number, { transverseTension }: Ply): string[] {
  if (allow > transverseTension * (1 + 1e-9))
    return [
      `allow: ${rounded(allow)} MPa is more than the transverse strength of the material around the channel, ${rounded(transverseTension)} MPa: an edge that keeps within it may have failed`,
    ];
  if (allow < 0.01 * transverseTension)
    return [
      `allow: ${rounded(allow)} MPa is less than a hundredth of the transverse strength of the material around the channel, ${rounded(transverseTension)} MPa; ${
        allow * 1000 <= transverseTension && allow * 1000 >= 1
          ? `given in GPa? Then write ${rounded(allow * 1000)}`
          : 'check it'
      }`,
    ];
  return [];
}

/**
 * What takes longer than a minute on one core says so before it begins. Measured on the starter joint with 3 to 1,000 cases (Node 20), within a factor of 2: 0.27 ms
 * for an outline or a made channel, `inCase` ms more in each case, and 0.1 s in each case for the designs that are told.
 */
export function longSearches(evaluations: number, samples: number, cases: number): string[] {
  const told = (what: string, count: number, inCase: number) => {
    const minutes = (count * (0.27 + inCase * cases) + 100 * cases) / 6e4;
    const time = minutes < 90 ? `${Math.round(minutes)} min` : `${Math.round(minutes / 60)} h`;
    return minutes > 1 ? [`${what} in ${cases} cases take about ${time} on one core`] : [];
  };
  return [
    ...told(`search.evaluations: ${evaluations} outlines`, evaluations, 0.01),
    ...told(`scatter.samples: ${samples} made channels`, samples, 0.4),
  ];
}
