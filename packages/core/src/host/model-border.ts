import type { Border } from '../outline/index.js';
import type { ReducedModel } from './reduced-model.js';
import { contourBorder, plateBorder } from './tee/border.js';

/** The border inside which a reduced model holds: its control contour; none in a plate. */
export function modelBorder({ contour }: Pick<ReducedModel, 'contour'>): Border {
  return contour === undefined ? plateBorder() : contourBorder(contour.bendRadius, contour.inset, contour.tipRadius);
}
