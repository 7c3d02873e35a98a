/** A plane mesh of second order as its file tells it: bodies of one surface name each, and named curves. mm */
export interface MeshFile {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Nine nodes an element, a 3 x 3 grid, `3 * row + column`, counter-clockwise; and the number of its surface's name. */
  readonly quads: Int32Array;
  readonly quadSurface: Int32Array;
  /** Six nodes an element: corners counter-clockwise, then the middles of the sides 1-2, 2-3, 3-1. */
  readonly triangles: Int32Array;
  readonly triangleSurface: Int32Array;
  readonly surfaces: readonly string[];
  /** Three nodes an edge: end, end, middle. */
  readonly curves: ReadonlyMap<string, Int32Array>;
}

/** What of a mesh file is wrong, and where. */
export interface MeshFault {
  readonly line?: number;
  readonly expected: string;
  readonly received: string;
  readonly remedy: string;
}

/** Thrown by what reads a mesh file; who knows the name of the file makes an `InputError` of it. */
export class MeshFileError extends Error {
  override readonly name = 'MeshFileError';
  readonly fault: MeshFault;

  constructor(fault: MeshFault) {
    super(`line ${fault.line ?? '?'}: expected ${fault.expected}, received ${fault.received}; ${fault.remedy}`);
    this.fault = fault;
  }
}
