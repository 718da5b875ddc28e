import { readMeshScene } from '../../core/io/read-mesh-scene.ts';
import { breather } from './breather.ts';
import { createImportDesk } from './import-desk.ts';
import type { FromImport, ToImport } from './import-messages.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromImport, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<ToImport>) => void) => void;
}

/** One worker reads one mesh file; what is in the file goes no farther than the study that wears it. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
const desk = createImportDesk({
  post: (message) => scope.postMessage(message, { transfer: [] }),
  breathe: breather(),
  now: () => performance.now(),
  read: readMeshScene,
});

scope.addEventListener('message', ({ data }) => void desk(data));
