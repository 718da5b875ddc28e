import type { BenchReadings } from '../../core/fabric/bench-readings.ts';
import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import type { Direction } from '../../core/fabric/fabric.ts';
import { inFile } from '../../core/fault/fault.ts';
import { parseBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { bendOverEdge } from '../../core/swatch/bend-over-edge.ts';
import { drapeDisc } from '../../core/swatch/drape-disc.ts';
import type { SwatchFabric, SwatchProgress } from '../../core/swatch/swatch.ts';
import type { FromSwatchWorker, SettledSwatch, SwatchOrder } from './swatch-messages.ts';
import { troubleOf } from './trouble.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromSwatchWorker, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<SwatchOrder>) => void) => void;
}

/** Lays one swatch down and ends: stopping it is ending the worker. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
const post = (message: FromSwatchWorker): void => scope.postMessage(message, { transfer: [] });

function lay({ text, name, wish, bendingFactor }: SwatchOrder): SettledSwatch {
  const { readings, fabric } = inFile(name, () => {
    const read = parseBenchSheet(text);
    return { readings: read, fabric: fabricFromReadings(read) };
  });
  const { warp, weft, bias } = fabric.bendingRigidity;
  const swatch: SwatchFabric = {
    law: fabric.laws.load,
    bendingRigidity: {
      warp: warp * bendingFactor,
      weft: weft * bendingFactor,
      bias: bias * bendingFactor,
    },
    arealDensity: fabric.arealDensity,
  };
  const { thickness } = fabric;
  if (wish.test === 'drape') {
    return { test: 'drape', rest: toEnd(drapeDisc(swatch, wish)), thickness };
  }
  const rest = toEnd(bendOverEdge(swatch, wish));
  return { test: 'cantilever', rest, thickness, benchOverhang: benchOverhang(readings, wish) };
}

function toEnd<Rest>(search: Generator<SwatchProgress, Rest>): Rest {
  let step = search.next();
  while (!step.done) {
    post({ kind: 'progress', progress: step.value });
    step = search.next();
  }
  return step.value;
}

/** Mean overhang that the bench read at the same slope. */
function benchOverhang(
  { bending }: BenchReadings,
  { direction, slope }: { readonly direction: Direction; readonly slope: number },
): number | null {
  if (bending.kind !== 'cantilever' || Math.abs(bending.angle - slope) > 1e-6) return null;
  const read = bending.overhang[direction];
  return read.reduce((sum, length) => sum + length, 0) / read.length;
}

scope.addEventListener('message', ({ data }) => {
  try {
    post({ kind: 'settled', swatch: lay(data) });
  } catch (error) {
    post(troubleOf(error));
  }
});
