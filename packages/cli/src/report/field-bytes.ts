/** Cells at the rim are carried on so far outwards, where the page cuts them off by the exact outline. */
const RIM = 2;

/**
 * Cells of a field, a byte each: 0 for none, 1 to 255 over the range, what lies beyond it at its ends. Written as steps from cell to cell modulo 256, a
 * character each from U+0100 on (none that JSON escapes), small ones of either sign first (0, -1, 1, -2, ...): so a page packs them best.
 */
export function fieldSteps(
  cells: Float32Array,
  columns: number,
  { low, high }: { readonly low: number; readonly high: number },
): string {
  let grown = cells;
  for (let i = 0; i < RIM; i++) grown = carriedOn(grown, columns);
  let text = '';
  let last = 0;
  for (const value of grown) {
    const share = Math.min(1, Math.max(0, (value - low) / (high - low)));
    const byte = Number.isNaN(value) ? 0 : 1 + Math.round(254 * share);
    const step = ((byte - last + 384) & 255) - 128;
    text += String.fromCharCode(0x100 + (step < 0 ? -2 * step - 1 : 2 * step));
    last = byte;
  }
  return text;
}

/** Gives empty cells the mean of their neighbours. */
function carriedOn(cells: Float32Array, columns: number): Float32Array {
  const rows = cells.length / columns;
  return cells.map((value, i) => {
    if (!Number.isNaN(value)) return value;
    const [row, column] = [Math.floor(i / columns), i % columns];
    let [sum, count] = [0, 0];
    for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++)
      for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) {
        const beside = cells[r * columns + c]!;
        if (Number.isNaN(beside)) continue;
        sum += beside;
        count++;
      }
    return count === 0 ? Number.NaN : sum / count;
  });
}
