/** Letters from which a part of a name tells which one is meant. */
const tellingPart = 4;

/** The known name nearest to what was written, if it is near enough to be a slip of the pen; or the only one that begins or ends with it. */
export function nearestName(written: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(written.length / 3)) + 1;
  for (const name of known) {
    const distance = editDistance(simplified(written), simplified(name));
    // Another letter altogether is no slip.
    if (distance < least && distance < written.length) {
      least = distance;
      best = name;
    }
  }
  return best ?? wholeOf(simplified(written), known);
}

function wholeOf(part: string, known: readonly string[]): string | undefined {
  if (part.length < tellingPart) return undefined;
  const [one, ...others] = known.filter((name) => {
    const whole = simplified(name);
    return whole.startsWith(part) || whole.endsWith(part);
  });
  return others.length === 0 ? one : undefined;
}

const simplified = (name: string) =>
  name
    .slice(0, 60)
    .toLowerCase()
    .replace(/[\s_-]/g, '');

/** Insertions, deletions, replacements and exchanges of neighbours (optimal string alignment). */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const exchanged =
        i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? before[j - 2]! + 1 : replaced;
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, replaced, exchanged));
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}

/** How a near name is suggested in a remedy. */
export const suggest = (name: string) => `did you mean '${name}'?`;

/** The name that a remedy suggests. */
export function suggestionIn(remedy: string): string | undefined {
  return /^did you mean '(.+)'\?$/.exec(remedy)?.[1];
}
