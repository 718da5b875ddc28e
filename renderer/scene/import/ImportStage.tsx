import { Canvas } from '@react-three/fiber';
import { useMemo, useState, type ReactElement } from 'react';
import { Box3, Vector3 } from 'three';
import { CANNOT_DRAW_WORDS } from '../../../core/words/stage-words.ts';
import { currentBody } from '../../store/import-store.ts';
import { TableContext, useImport, useTable } from '../../table.ts';
import { CameraRig } from '../CameraRig.tsx';
import { canDraw } from '../can-draw.ts';
import { LENS } from '../views.ts';
import { HeightRule } from './HeightRule.tsx';
import { ImportFloor } from './ImportFloor.tsx';
import { PreviewForm } from './PreviewForm.tsx';
import { previewStand, STAGE_HEIGHT } from './stand-preview.ts';
import { useInks } from './use-inks.ts';

/** What the camera frames, whatever is turned in it, so that it keeps still while one chooses. */
const FRAME = new Box3(new Vector3(-0.44, -0.04, -0.44), new Vector3(0.44, STAGE_HEIGHT, 0.44));

/** From higher up than a study is looked at: the word on the floor is to be read. */
const STAND = { azimuth: Math.PI / 7, polar: Math.PI / 2 - 0.36 } as const;

/** The body as the answers make it, on a floor that says where the front is. */
export function ImportStage(): ReactElement {
  const table = useTable();
  const [isAble] = useState(canDraw);
  // The camera of this step: that of the study's stage stays where it was.
  const own = useMemo(
    () => ({ ...table, view: table.importView, actions: table.importViewActions }),
    [table],
  );
  if (!isAble) {
    return (
      <p className="cannot-draw" role="alert">
        {CANNOT_DRAW_WORDS.what} <span className="soft">{CANNOT_DRAW_WORDS.remedy}</span>
      </p>
    );
  }
  return (
    <TableContext value={own}>
      <Canvas
        flat
        frameloop="demand"
        dpr={[1, 2]}
        camera={{ fov: LENS, near: 0.1, far: 30, position: [0, 1, 4] }}
        gl={{ antialias: true, alpha: true, preserveDrawingBuffer: false }}
      >
        <Standing />
        <CameraRig cloth={FRAME} skin={FRAME} threeQuarter={STAND} />
      </Canvas>
    </TableContext>
  );
}

function Standing(): ReactElement {
  const { opened, choices } = useImport((state) => state);
  const made = useImport(currentBody);
  const inks = useInks();
  const stand = useMemo(
    () => (opened === null || choices === null ? null : previewStand(opened, choices, made)),
    [opened, choices, made],
  );
  return (
    <>
      <ImportFloor inks={inks} />
      {opened !== null && stand !== null && (
        <>
          <PreviewForm opened={opened} made={made} stand={stand} inks={inks} />
          <HeightRule stand={stand} inks={inks} />
        </>
      )}
    </>
  );
}
