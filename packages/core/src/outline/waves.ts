/**
 * Band-limited curves `p(v) = sum_k a_k cos(k v) (+ b_k sin(k v))` without constant term, as tables: value and derivatives
 * at every node are sums over the amplitudes, so that a hot loop multiplies and adds.
 */
export interface WaveTable {
  readonly count: number;
  readonly amplitudes: number;
  /** What each amplitude gives to the curve, its first and its second derivative: `[(3 * j + order) * amplitudes + i]`. */
  readonly weights: Float64Array;
  /** What `curveOf` fills: one value per row. */
  readonly result: WaveCurve;
}

/** A curve and its derivatives with respect to the nodes' angle. */
export interface WaveCurve {
  readonly curve: Float64Array;
  readonly slope: Float64Array;
  readonly bend: Float64Array;
}

/** Cosines of order 1 to `highest`, for the nodes of the right half: curves that are even about the vertical axis. */
export function evenWaveTable(count: number, highest: number): WaveTable {
  return waveTable(count, count / 2, highest, false);
}

/** Cosines, then sines, of order 1 to `highest`, for all nodes. */
export function fullWaveTable(count: number, highest: number): WaveTable {
  return waveTable(count, count, highest, true);
}

function waveTable(count: number, rows: number, highest: number, sines: boolean): WaveTable {
  const amplitudes = sines ? 2 * highest : highest;
  const weights = new Float64Array(rows * 3 * amplitudes);
  for (let j = 0; j < rows; j++)
    for (let k = 1; k <= highest; k++) {
      const angle = (k * (2 * j + 1) * Math.PI) / count;
      const at = 3 * j * amplitudes + k - 1;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      weights[at] = c;
      weights[at + amplitudes] = -k * s;
      weights[at + 2 * amplitudes] = -k * k * c;
      if (!sines) continue;
      weights[at + highest] = s;
      weights[at + amplitudes + highest] = k * c;
      weights[at + 2 * amplitudes + highest] = -k * k * s;
    }
  const buffer = () => new Float64Array(rows);
  return { count, amplitudes, weights, result: { curve: buffer(), slope: buffer(), bend: buffer() } };
}

/** The curve of the amplitudes `values[first]` and those after it; fills and returns the table's own buffers. */
export function curveOf(values: ArrayLike<number>, first: number, table: WaveTable): WaveCurve {
  const { amplitudes, weights, result } = table;
  const { curve, slope, bend } = result;
  const rows = curve.length;
  for (let j = 0, at = 0; j < rows; j++, at += 3 * amplitudes) {
    let f = 0;
    let df = 0;
    let ddf = 0;
    for (let i = 0; i < amplitudes; i++) {
      const amplitude = values[first + i]!;
      f += weights[at + i]! * amplitude;
      df += weights[at + amplitudes + i]! * amplitude;
      ddf += weights[at + 2 * amplitudes + i]! * amplitude;
    }
    curve[j] = f;
    slope[j] = df;
    bend[j] = ddf;
  }
  return result;
}
