/**
 * Advance widths of the characters from space to tilde in thousandths of the type size: the larger of DejaVu Sans 2.37 and Nimbus Sans
 * (whose widths are those of the other sans-serifs that a picture asks for), read by us from the `hmtx` tables of both fonts. A text
 * that fits by them fits with either, and with narrower ones.
 */
const REGULAR = [
  318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, 637, 637, 637, 637, 637, 637, 637,
  637, 637, 637, 337, 337, 838, 838, 838, 556, 1015, 685, 687, 722, 771, 667, 611, 778, 752, 295, 500, 667, 558, 863,
  749, 788, 667, 788, 722, 667, 611, 732, 685, 989, 686, 667, 686, 391, 337, 391, 838, 556, 500, 613, 635, 550, 635,
  616, 353, 635, 634, 278, 278, 580, 278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637,
  337, 637, 838,
];
const BOLD = [
  349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416, 380, 366, 696, 696, 696, 696, 696, 696, 696,
  696, 696, 696, 400, 400, 838, 838, 838, 611, 1000, 774, 763, 734, 831, 684, 684, 821, 837, 373, 556, 775, 638, 996,
  837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771, 725, 726, 458, 366, 458, 838, 556, 500, 675, 716, 593, 716,
  679, 436, 716, 712, 343, 343, 666, 343, 1042, 712, 688, 716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712,
  366, 712, 838,
];

/** No character beyond them is wider, in em. */
const OTHER = 1.1;

/** Width that text of `size` px takes at most in any usual sans-serif font, px. */
export function textWidth(content: string, size: number, bold = false): number {
  const widths = bold ? BOLD : REGULAR;
  let sum = 0;
  // Accents stand above their letters; ligatures, small figures and the like are as wide as what they are made of, or narrower.
  for (const character of content.normalize('NFKD').replace(/\p{Mark}/gu, '')) {
    const width = widths[character.codePointAt(0)! - 32];
    sum += width === undefined ? OTHER : width / 1000;
  }
  return sum * size;
}
