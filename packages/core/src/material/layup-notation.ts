/** Plies that a repeated notation may come to before it is refused, so that `[0_999999999]` costs nothing. */
const most = 1000;

/**
 * Ply angles from the notation of the trade: `[45/0/-45/90]s` is followed by its mirror image, `[90_2/0_2]` repeats plies, `[0/90]2s` and
 * `[(45/-45)_2/0]` repeat what stands in brackets, `±45` is 45 and -45. Subscripts stand after `_` or as such (`0₂`).
 *
 * @returns `undefined` if the text is not of this form
 */
export function parseLayup(text: string): number[] | undefined {
  const plain = text
    .replace(/[₀-₉]+/g, (digits) => `_${[...digits].map((digit) => digit.charCodeAt(0) - 0x2080).join('')}`)
    .replace(/[−–]/g, '-')
    .replace(/\+\/?-/g, '±')
    .replace(/-\/\+/g, '∓')
    .replace(/[°\s_{}]/g, (character) => (character === '_' ? '_' : ''));
  let at = 0;
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(plain)?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  const repeated = (angles: number[], times: number): number[] | undefined => {
    if (!(times >= 1 && angles.length * times <= most)) return undefined;
    return Array.from({ length: times }, () => angles).flat();
  };
  /** What stands after a bracket: how often, and whether its mirror image follows. */
  const suffixed = (angles: number[] | undefined): number[] | undefined => {
    if (angles === undefined) return undefined;
    const times = take(/_?\d+/y);
    const all = repeated(angles, times === undefined ? 1 : Number(times.replace('_', '')));
    const symmetric = take(/_?[sS]/y) !== undefined;
    if (!symmetric) take(/_?[tT]/y);
    return all === undefined || !symmetric ? all : [...all, ...all.toReversed()];
  };
  const item = (): number[] | undefined => {
    if (take(/\(/y) !== undefined) {
      const inner = items();
      return take(/\)/y) === undefined ? undefined : suffixed(inner);
    }
    const sign = take(/[±∓+-]/y);
    const size = take(/\d+(\.\d+)?/y);
    if (size === undefined) return undefined;
    const angle = Number(size);
    const angles =
      sign === '±' ? [angle, -angle] : sign === '∓' ? [-angle, angle] : [sign === '-' && angle !== 0 ? -angle : angle];
    const times = take(/_\d+/y);
    return repeated(angles, times === undefined ? 1 : Number(times.slice(1)));
  };
  const items = (): number[] | undefined => {
    const all: number[] = [];
    do {
      const next = item();
      if (next === undefined || all.length > most) return undefined;
      all.push(...next);
    } while (take(/[/,]/y) !== undefined);
    return all;
  };
  if (take(/\[/y) === undefined) return undefined;
  const inner = items();
  if (take(/\]/y) === undefined) return undefined;
  const angles = suffixed(inner);
  return at === plain.length ? angles : undefined;
}
