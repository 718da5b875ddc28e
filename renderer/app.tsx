import { useEffect, useState, type DragEvent, type ReactElement } from 'react';
import { stageLabel } from '../core/words/stage-words.ts';
import { triedLine } from '../core/words/try-words.ts';
import { BenchPlace } from './panels/bench/BenchPlace.tsx';
import { TapeMarks } from './panels/body/TapeMarks.tsx';
import { TissueLegend } from './panels/body/TissueLegend.tsx';
import { TissueMarks } from './panels/body/TissueMarks.tsx';
import { EmptyTable } from './panels/EmptyTable.tsx';
import { HelpLeaf } from './panels/HelpLeaf.tsx';
import { ImportPlace } from './panels/import/ImportPlace.tsx';
import { LeafEdge } from './panels/LeafEdge.tsx';
import { Legend } from './panels/Legend.tsx';
import { NoticeSlip } from './panels/NoticeSlip.tsx';
import { Notches } from './panels/Notches.tsx';
import { OpenLeaf } from './panels/OpenLeaf.tsx';
import { PointerCard } from './panels/PointerCard.tsx';
import { ProofPlace } from './panels/proof/ProofPlace.tsx';
import { ProgressSlip } from './panels/ProgressSlip.tsx';
import { RestBanner } from './panels/RestBanner.tsx';
import { StageFoot } from './panels/StageFoot.tsx';
import { SwatchRail } from './panels/SwatchRail.tsx';
import { TopBar } from './panels/TopBar.tsx';
import { TriedNote } from './panels/TriedNote.tsx';
import { ViewWords } from './panels/ViewWords.tsx';
import { ImportStage } from './scene/import/ImportStage.tsx';
import { Stage } from './scene/Stage.tsx';
import { SwatchStage } from './scene/swatch/SwatchStage.tsx';
import type { ShownStudy } from './store/study-store.ts';
import { useBench, useImport, useIsBare, useProof, useStudy, useSwatch, useTable, useView } from './table.ts';
import { useKeys } from './use-keys.ts';

/** The whole window: two places, the stage and the bench. */
export function App(): ReactElement {
  const { openDropped, benchDeeds } = useTable();
  const isBench = useBench((bench) => bench.isOpen);
  const isProof = useProof((proof) => proof.isOpen);
  const isImport = useImport((step) => step.isOpen);
  const shown = useStudy((state) => state.shown);
  const activity = useStudy((state) => state.activity);
  const leaf = useView((view) => view.leaf);
  const [isOver, setOver] = useState(false);
  useKeys();
  useMenu();
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const files = [...event.dataTransfer.files];
    void (isBench && !isImport ? benchDeeds.take(files) : openDropped(files));
  };
  const over = (event: DragEvent): void => {
    event.preventDefault();
    setOver(true);
  };
  return (
    <div
      data-leaf={leaf ?? undefined}
      className={`table ${isOver ? 'over' : ''} ${shown === null ? 'bare' : ''}`}
      onDrop={drop}
      onDragOver={over}
      onDragLeave={() => setOver(false)}
    >
      <div className="stage-place" inert={isBench || isImport || isProof}>
        <StagePlace shown={shown} isIdle={activity.kind === 'idle'} />
      </div>
      {isBench && (
        <div className="stage-place" inert={isImport || isProof}>
          <BenchPlace swatchStage={<BenchSwatches />} />
        </div>
      )}
      {isImport && (
        <div className="stage-place" inert={isProof}>
          <ImportPlace preview={<ImportStage />} />
        </div>
      )}
      {isProof && <ProofPlace />}
      <div className="slips">
        {!isImport && <ProgressSlip />}
        <NoticeSlip />
      </div>
      <HelpLeaf />
    </div>
  );
}

interface StagePlaceProps {
  readonly shown: ShownStudy | null;
  readonly isIdle: boolean;
}

/** The stage, and paper round its edges; it keeps its state while the bench stands before it. */
function StagePlace({ shown, isIdle }: StagePlaceProps): ReactElement {
  const isBare = useIsBare();
  return (
    <>
      <main className="stage">
        <StageName />
        <Stage />
        <Notches />
        <PointerCard />
        {isBare && <TapeMarks />}
        {isBare && <TissueMarks />}
        {shown === null && isIdle && <EmptyTable />}
      </main>
      <TopBar />
      <LeafEdge />
      {shown !== null && (
        <>
          <div className="stage-notes">
            <RestBanner shown={shown} />
            <TriedNote shown={shown} />
          </div>
          <OpenLeaf shown={shown} />
          {isBare ? <TissueLegend /> : <Legend shown={shown} />}
          <ViewWords />
          <SwatchRail shown={shown} />
        </>
      )}
      <StageFoot shown={shown} />
    </>
  );
}

/** The swatches of the bench, drawn by the scene's side. */
function BenchSwatches(): ReactElement {
  const { swatchDeeds } = useTable();
  const { test, runs, turn, thicknessFactor } = useSwatch((state) => state);
  return (
    <SwatchStage
      test={test}
      runs={runs}
      turn={turn}
      thicknessFactor={thicknessFactor}
      onTurn={swatchDeeds.turn}
    />
  );
}

/** Says what is on the stage to whoever cannot see it. */
function StageName(): ReactElement {
  const shown = useStudy((state) => state.shown);
  const view = useView((state) => state);
  return (
    <p className="hidden" role="status">
      {shown === null
        ? ''
        : `${stageLabel(view, shown.sheet.fabrics)} ${triedLine(shown.tried, shown.asOpened)}`}
    </p>
  );
}

/** What the shell's menu asks for. */
function useMenu(): void {
  const { host, openStudy, bringBody, savePicture, saveNumbers, saveProof, proof, proofDeeds } = useTable();
  useEffect(
    () =>
      host.onMenu((command) => {
        switch (command) {
          case 'openStudy':
            return void openStudy();
          case 'bringBody':
            return bringBody();
          case 'savePicture':
            return void (proof.getState().isOpen ? saveProof('picture') : savePicture());
          case 'saveNumbers':
            return proof.getState().isOpen ? void saveProof('numbers') : saveNumbers();
          case 'prove':
            return proofDeeds.open();
          case 'printSheet':
            return void host.printSheet('snugfield-sheet.pdf');
          default:
            command satisfies never;
        }
      }),
    [host, openStudy, bringBody, savePicture, saveNumbers, saveProof, proof, proofDeeds],
  );
}
