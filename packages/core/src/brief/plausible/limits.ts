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

/** An outline takes about 0.3 ms on one core, a made channel as much; common machines have several. */
const outlinesAMinute = 200_000;

/** What takes longer than a minute on one core says so before it begins. */
export function longSearches(
  { evaluations }: { readonly evaluations: number },
  { samples }: { readonly samples: number },
): string[] {
  const long = (path: string, what: string, count: number) =>
    count > outlinesAMinute
      ? [`${path}: ${count} ${what} take about ${duration(count / outlinesAMinute)} on one core`]
      : [];
  return [...long('search.evaluations', 'outlines', evaluations), ...long('scatter.samples', 'made channels', samples)];
}

const duration = (minutes: number) => (minutes < 90 ? `${Math.round(minutes)} min` : `${Math.round(minutes / 60)} h`);
