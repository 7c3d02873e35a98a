export { type Answered, answerOf } from './answer.js';
export { type Colour, wantsColour } from './colour.js';
export {
  axisLabel,
  axisTitle,
  type CostFigure,
  costFigure,
  sizeFigure,
  type TradedFigure,
  withUnit,
} from './objective.js';
export { formatPlot, type PlotSeries, type ScatterPlot } from './plot.js';
export { preferredDesign } from './preferred-design.js';
export { describeProgress, formatSeconds, type Progress, type ProgressOptions, startProgress } from './progress.js';
export { formatTable, type TableColumn, type TableOptions } from './table.js';
