import { flowingTime } from './ageing.js';
import { fillTime, volumeAtHand } from './fill-time.js';
import { enters, fillsGap, type HealingObstacle, type HealingTask, shrinksLittle, withinLimit } from './healing.js';
import { risingRoot } from './rising-root.js';

/** The damages of one shape and opening that an agent heals, by size. */
export interface HealingWindow {
  /** mm2; of the smallest and the largest damage healed within the range asked for. */
  readonly areaFrom: number;
  readonly areaTo: number;
  /** mm3 */
  readonly volumeFrom: number;
  readonly volumeTo: number;
  /** What ends the window below: the range, or air trapped in a long channel before a small damage. */
  readonly limitBelow: 'range' | 'trapped air';
  readonly limitAbove: 'range' | 'gel' | 'volume';
}

/** No damage of the range is healed, and what stands in the way. */
export interface NoWindow {
  readonly obstacle: Exclude<HealingObstacle, 'pressure'>;
}

/**
 * Which areas between `from` and `to` (mm2, above 0) of the task's damage are healed; the area of the task itself is not used.
 *
 * In a vented channel time rises with area. In a dead end a small damage is stopped by the air of the channel: time falls from
 * infinity, then rises; the least time is found by golden section and both ends by bisection, on the logarithm of the area.
 */
export function healingWindow(task: HealingTask, from: number, to: number): HealingWindow | NoWindow {
  const { duct, damage, agent, leastShare } = task;
  const supply = withinLimit(task);
  if (!enters(duct, damage, supply, agent)) return { obstacle: 'entry' };
  if (!shrinksLittle(agent, leastShare)) return { obstacle: 'shrinkage' };
  if (!fillsGap(agent, damage)) return { obstacle: 'gap' };

  const liquidShare = leastShare / (1 + agent.volumeChange);
  const channelVolume = duct.area * duct.length;
  const held = (volumeAtHand(supply) - channelVolume) / (liquidShare * damage.opening);
  if (!(held >= from)) return { obstacle: 'volume' };
  const lateness = (logArea: number) => {
    const area = Math.exp(logArea);
    const volume = channelVolume + liquidShare * area * damage.opening;
    return fillTime(duct, { ...damage, area }, supply, agent, volume) - flowingTime(agent);
  };
  const lower = Math.log(from);
  const upper = Math.log(Math.min(to, held));
  const quickest = supply.vented ? lower : leastOf(lateness, lower, upper);
  const best = lateness(quickest);
  if (!(best <= 0)) return { obstacle: best < Number.POSITIVE_INFINITY ? 'gel' : 'trapped air' };

  const top = risingRoot(lateness, quickest, upper);
  const bottom = -risingRoot((negative) => lateness(-negative), -quickest, -lower);
  const areaFrom = bottom === lower ? from : Math.exp(bottom);
  const areaTo = top === upper ? Math.min(to, held) : Math.exp(top);
  return {
    areaFrom,
    areaTo,
    volumeFrom: areaFrom * damage.opening,
    volumeTo: areaTo * damage.opening,
    limitBelow: bottom === lower ? 'range' : 'trapped air',
    limitAbove: top < upper ? 'gel' : held < to ? 'volume' : 'range',
  };
}

/** The largest damage of the task's shape and opening that its agent heals, looked for from 1e-6 to 1e9 mm2. */
export function largestDamage(task: HealingTask): HealingWindow | NoWindow {
  return healingWindow(task, 1e-6, 1e9);
}

const goldenShare = (Math.sqrt(5) - 1) / 2;

/** Where a function that falls, then rises is least; it may be infinite at the left. */
function leastOf(value: (at: number) => number, lower: number, upper: number): number {
  let [a, b] = [lower, upper];
  let [p, q] = [b - goldenShare * (b - a), a + goldenShare * (b - a)];
  let [atP, atQ] = [value(p), value(q)];
  while (b - a > 1e-7) {
    if (atP < atQ) {
      [b, q, atQ] = [q, p, atP];
      p = b - goldenShare * (b - a);
      atP = value(p);
    } else {
      // Also where both are infinite.
      [a, p, atP] = [p, q, atQ];
      q = a + goldenShare * (b - a);
      atQ = value(q);
    }
  }
  const ends = [lower, (a + b) / 2, upper];
  return ends.reduce((best, at) => (value(at) < value(best) ? at : best));
}
