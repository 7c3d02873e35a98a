/** Columns that a text takes on a terminal: East Asian characters take two. */
export function displayWidth(text: string): number {
  let width = 0;
  for (const character of text)
    width += /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]/.test(character) ? 2 : 1;
  return width;
}

/** A text filled up with blanks to `width` columns. */
export function pad(text: string, width: number, align: 'left' | 'right'): string {
  const blanks = ' '.repeat(Math.max(0, width - displayWidth(text)));
  return align === 'left' ? text + blanks : blanks + text;
}
