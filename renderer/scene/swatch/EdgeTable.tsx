import { useEffect, useMemo, type ReactElement } from 'react';
import { BoxGeometry, BufferAttribute, BufferGeometry } from 'three';
import type { CantileverRest } from '../../../core/swatch/swatch.ts';
import type { SwatchMaterials } from './swatch-materials.ts';

interface EdgeTableProps {
  readonly rest: CantileverRest;
  /** Height of the platform's top, m. */
  readonly top: number;
  readonly materials: SwatchMaterials;
}

/** Platform, m. */
const DEPTH = 0.045;
const WIDTH = 0.04;
const HEIGHT = 0.006;
/** The slope is drawn this much longer than the strip needs. */
const SLOPE_REACH = 1.25;

/** The platform that the strip is pushed over, and the line of the slope that its end touches. */
export function EdgeTable({ rest, top, materials }: EdgeTableProps): ReactElement {
  const [outward, down] = rest.tip;
  const parts = useMemo(
    () => ({
      platform: new BoxGeometry(DEPTH, HEIGHT, WIDTH),
      slope: slopeGeometry(SLOPE_REACH * outward, SLOPE_REACH * down),
    }),
    [outward, down],
  );
  useEffect(
    () => () => {
      for (const geometry of Object.values(parts)) geometry.dispose();
    },
    [parts],
  );
  return (
    <>
      <mesh
        geometry={parts.platform}
        material={materials.table}
        position={[-DEPTH / 2, top - HEIGHT / 2, 0]}
      />
      <lineSegments geometry={parts.slope} material={materials.line} />
    </>
  );
}

/** Two lines down the slope, one at each side of the platform, and one across their ends. */
function slopeGeometry(outward: number, down: number): BufferGeometry {
  const side = WIDTH / 2;
  const points = [
    [0, 0, -side],
    [outward, -down, -side],
    [0, 0, side],
    [outward, -down, side],
    [outward, -down, -side],
    [outward, -down, side],
  ];
  return new BufferGeometry().setAttribute(
    'position',
    new BufferAttribute(Float32Array.from(points.flat()), 3),
  );
}
