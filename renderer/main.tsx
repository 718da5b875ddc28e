import '@fontsource-variable/inter/wght.css';
import './styles/base.css';
import './styles/stage.css';
import './styles/leaves.css';
import './styles/legend.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { BugSheet } from './panels/BugSheet.tsx';
import { findHost } from './bridge/find-host.ts';
import { layTable } from './lay-table.ts';
import { takePicture } from './scene/take-picture.ts';
import { TableContext } from './table.ts';
import { startWorker } from './worker/start-worker.ts';

const table = layTable({
  host: findHost(),
  startWorker,
  now: () => performance.now(),
  takePicture,
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
