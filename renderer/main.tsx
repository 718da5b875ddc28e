import '@fontsource-variable/inter/wght.css';
import './styles/base.css';
import './styles/stage.css';
import './styles/leaves.css';
import './styles/legend.css';
import './styles/try.css';
import './styles/body.css';
import './styles/garment.css';
import './styles/import.css';
import './styles/proof.css';
import './styles/bench.css';
import './styles/bench-chart.css';
import './styles/bench-card.css';
import './styles/bench-library.css';
import './styles/bench-swatch.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { BugSheet } from './panels/BugSheet.tsx';
import { findHost } from './bridge/find-host.ts';
import { layTable } from './lay-table.ts';
import { proofPicture } from './panels/proof/proof-picture.ts';
import { takePicture } from './scene/take-picture.ts';
import { TableContext } from './table.ts';
import { startBodyWorker } from './worker/start-body-worker.ts';
import { startBenchWorker } from './worker/start-bench-worker.ts';
import { startImportWorker } from './worker/start-import-worker.ts';
import { startSwatchWorker } from './worker/start-swatch-worker.ts';
import { startProofWorker } from './worker/start-proof-worker.ts';
import { startWorker } from './worker/start-worker.ts';

const table = layTable({
  host: findHost(),
  startWorker,
  startBodyWorker,
  startBenchWorker,
  startSwatchWorker,
  startProofWorker,
  startImportWorker,
  now: () => performance.now(),
  takePicture,
  proofPicture,
});

createRoot(document.querySelector('#table')!).render(
  <BugSheet>
    <TableContext value={table}>
      <App />
    </TableContext>
  </BugSheet>,
);

// Something to look at from the first minute.
void table.openDemo();
