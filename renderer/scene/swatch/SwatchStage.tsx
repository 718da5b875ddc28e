import { Canvas, useThree } from '@react-three/fiber';
import { useEffect, useMemo, type PointerEvent, type ReactElement } from 'react';
import { PerspectiveCamera } from 'three';
import type { SettledSwatch, SwatchState } from '../../store/swatch-store.ts';
import { LENS } from '../views.ts';
import { DrapeTable } from './DrapeTable.tsx';
import { EdgeTable } from './EdgeTable.tsx';
import { swatchMaterials, type SwatchMaterials } from './swatch-materials.ts';
import { slabGeometry } from './slab-geometry.ts';

interface SwatchStageProps {
  readonly runs: SwatchState['runs'];
  readonly turn: SwatchState['turn'];
  readonly thicknessFactor: number;
  /** Radians that a drag asks for. */
  readonly onTurn: (around: number, over: number) => void;
}

/** How far apart two swatches stand and how much of each is framed, m. */
const APART = 0.4;
const FRAMED = { width: 0.4, height: 0.32, centre: -0.06 } as const;
const RADIANS_PER_PIXEL = 0.008;

/** Swatches side by side, all turned alike: each on its own table, thickness drawn. */
export function SwatchStage({ runs, turn, thicknessFactor, onTurn }: SwatchStageProps): ReactElement {
  const drag = (event: PointerEvent): void => {
    if (event.buttons !== 1) return;
    onTurn(event.movementX * RADIANS_PER_PIXEL, event.movementY * RADIANS_PER_PIXEL);
  };
  return (
    <div className="swatch-canvas" onPointerMove={drag}>
      <Canvas
        flat
        frameloop="demand"
        dpr={[1, 2]}
        camera={{ fov: LENS, near: 0.05, far: 20 }}
        // Kept for the picture that is saved of it.
        gl={{ antialias: true, alpha: true, preserveDrawingBuffer: true }}
      >
        <Eye count={Math.max(1, runs.length)} over={turn.over} />
        {runs.map(({ settled, subject }, index) =>
          settled === null ? null : (
            <group
              key={subject.letter}
              position={[APART * (index - (runs.length - 1) / 2), 0, 0]}
              rotation={[0, turn.around, 0]}
            >
              <Swatch settled={settled} index={index} thicknessFactor={thicknessFactor} />
            </group>
          ),
        )}
      </Canvas>
    </div>
  );
}

/** Stands in front of the tables, as high as the turn says, far enough to see them all. */
function Eye({ count, over }: { readonly count: number; readonly over: number }): null {
  const { camera, size, invalidate } = useThree();
  useEffect(() => {
    if (!(camera instanceof PerspectiveCamera)) return;
    const half = Math.tan((LENS * Math.PI) / 360);
    const width = APART * (count - 1) + FRAMED.width;
    const distance = Math.max(FRAMED.height, (width * size.height) / size.width) / (2 * half);
    camera.position.set(0, FRAMED.centre + distance * Math.sin(over), distance * Math.cos(over));
    camera.lookAt(0, FRAMED.centre, 0);
    camera.updateProjectionMatrix();
    invalidate();
  }, [camera, size, count, over, invalidate]);
  return null;
}

interface SwatchProps {
  readonly settled: SettledSwatch;
  readonly index: number;
  readonly thicknessFactor: number;
}

function Swatch({ settled, index, thicknessFactor }: SwatchProps): ReactElement {
  const { invalidate } = useThree();
  const thickness = settled.thickness * thicknessFactor;
  const materials = useMaterials(index);
  const slab = useMemo(() => slabGeometry(settled.rest, thickness), [settled, thickness]);
  useEffect(() => {
    invalidate();
    return () => slab.dispose();
  }, [slab, invalidate]);
  return (
    <>
      <mesh geometry={slab} material={materials.cloth} name="swatch" />
      {settled.test === 'drape' ? (
        <DrapeTable rest={settled.rest} top={-thickness / 2} materials={materials} />
      ) : (
        <EdgeTable rest={settled.rest} top={-thickness / 2} materials={materials} />
      )}
    </>
  );
}

function useMaterials(index: number): SwatchMaterials {
  const materials = useMemo(() => swatchMaterials(index), [index]);
  useEffect(
    () => () => {
      for (const material of Object.values(materials)) material.dispose();
    },
    [materials],
  );
  return materials;
}
