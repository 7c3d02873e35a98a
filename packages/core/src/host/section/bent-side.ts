import { InputError } from '../../errors.js';

const mm = (length: number) => String(Number(length.toPrecision(4)));

/** Of an element between the border of the filler and a channel, or its control contour, that a curved side of the border turns inside out. */
export const bentSide = (x: number, y: number): InputError =>
  new InputError({
    path: 'host.mesh',
    expected:
      'sides along the border of the filler that are short against its radius of curvature and against channel.wall',
    received: `one that bends through the element beside it, near (${mm(x)}, ${mm(y)}) mm`,
    remedy: 'mesh the border of the filler more finely there',
  });
