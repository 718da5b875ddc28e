import { Canvas, useThree } from '@react-three/fiber';
import { useEffect, useMemo, type PointerEvent, type ReactElement } from 'react';
import { OrthographicCamera } from 'three';
import type { SettledSwatch, SwatchState } from '../../store/swatch-store.ts';
import { DrapeTable } from './DrapeTable.tsx';
import { EdgeTable } from './EdgeTable.tsx';
import { swatchMaterials, type SwatchMaterials } from './swatch-materials.ts';
import { slabGeometry } from './slab-geometry.ts';

interface SwatchStageProps {
  readonly test: SwatchState['test'];
  readonly runs: SwatchState['runs'];
  readonly turn: SwatchState['turn'];
  readonly thicknessFactor: number;
  /** Radians that a drag asks for. */
  readonly onTurn: (around: number, over: number) => void;
}

/** How much of each swatch is framed, and the height that is looked at, m. */
const FRAMES: Readonly<Record<SwatchState['test'], { width: number; height: number; centre: number }>> = {
  drape: { width: 0.33, height: 0.26, centre: -0.04 },
  cantilever: { width: 0.13, height: 0.1, centre: -0.012 },
};
/** Any distance will do: without perspective nothing grows or shrinks. */
const EYE_DISTANCE = 2;
const RADIANS_PER_PIXEL = 0.008;

/** Swatches side by side, all turned alike: each on its own table, thickness drawn. */
export function SwatchStage(props: SwatchStageProps): ReactElement {
  const { test, runs, turn, thicknessFactor, onTurn } = props;
  const frame = FRAMES[test];
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
        // Without perspective two swatches beside each other are seen from the same side.
        orthographic
        camera={{ near: 0.1, far: 2 * EYE_DISTANCE }}
        // Kept for the picture that is saved of it.
        gl={{ antialias: true, alpha: true, preserveDrawingBuffer: true }}
      >
        <Eye frame={frame} count={Math.max(1, runs.length)} over={turn.over} />
        {runs.map(({ settled, subject }, index) =>
          settled?.test !== test ? null : (
            <group
              key={subject.letter}
              position={[frame.width * (index - (runs.length - 1) / 2), 0, 0]}
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

interface EyeProps {
  readonly frame: (typeof FRAMES)[SwatchState['test']];
  readonly count: number;
  readonly over: number;
}

/** Stands in front of the tables, as high as the turn says, and frames them all. */
function Eye({ frame, count, over }: EyeProps): null {
  const { camera, size, invalidate } = useThree();
  useEffect(() => {
    if (!(camera instanceof OrthographicCamera)) return;
    const zoom = Math.min(size.width / (count * frame.width), size.height / frame.height);
    aim(camera, { zoom, centre: frame.centre, over });
    invalidate();
  }, [camera, size, frame, count, over, invalidate]);
  return null;
}

function aim(
  camera: OrthographicCamera,
  { zoom, centre, over }: { readonly zoom: number; readonly centre: number; readonly over: number },
): void {
  camera.zoom = zoom;
  camera.position.set(0, centre + EYE_DISTANCE * Math.sin(over), EYE_DISTANCE * Math.cos(over));
  camera.lookAt(0, centre, 0);
  camera.updateProjectionMatrix();
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
        <DrapeTable rest={settled.rest} half={thickness / 2} materials={materials} />
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
