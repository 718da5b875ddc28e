import { useEffect, useMemo, type ReactElement } from 'react';
import { BufferAttribute, BufferGeometry, CylinderGeometry, Shape, ShapeGeometry, Vector2 } from 'three';
import type { DrapeRest } from '../../../core/swatch/swatch.ts';
import type { SwatchMaterials } from './swatch-materials.ts';

interface DrapeTableProps {
  readonly rest: DrapeRest;
  /** Half the cloth as it is drawn, m: the table's top lies this far below its middle, the upper disc as far above. */
  readonly half: number;
  readonly materials: SwatchMaterials;
}

const TABLE_HEIGHT = 0.012;
/** The floor lies this far below the lowest that cloth can hang, m. */
const FLOOR_BELOW = 0.02;
const ROUND = 96;
/** A line lies this far over the cloth, so that both do not fight for the same pixel, m. */
const HAIR = 2e-4;

/** The round table, and a line where the upper disc ends that holds the cloth on it; on the floor the shadow that the test weighs, between the table's circle and the flat disc's. */
export function DrapeTable({ rest, half, materials }: DrapeTableProps): ReactElement {
  const { supportRadius, specimenRadius, shadow } = rest;
  const floor = -(specimenRadius - supportRadius) - FLOOR_BELOW;
  const parts = useMemo(
    () => ({
      table: new CylinderGeometry(supportRadius, supportRadius, TABLE_HEIGHT, ROUND),
      stem: new CylinderGeometry(0.008, 0.008, -floor - TABLE_HEIGHT, 24),
      shadow: shadowGeometry(shadow),
      inner: circleGeometry(supportRadius),
      outer: circleGeometry(specimenRadius),
    }),
    [supportRadius, specimenRadius, shadow, floor],
  );
  useEffect(
    () => () => {
      for (const geometry of Object.values(parts)) geometry.dispose();
    },
    [parts],
  );
  const stemMiddle = (floor - TABLE_HEIGHT - half) / 2;
  return (
    <>
      <mesh geometry={parts.table} material={materials.table} position={[0, -half - TABLE_HEIGHT / 2, 0]} />
      <mesh geometry={parts.stem} material={materials.table} position={[0, stemMiddle, 0]} />
      <lineLoop geometry={parts.inner} material={materials.line} position={[0, half + HAIR, 0]} />
      <group position={[0, floor, 0]}>
        <mesh geometry={parts.shadow} material={materials.shadow} rotation={[Math.PI / 2, 0, 0]} />
        <lineLoop geometry={parts.inner} material={materials.line} />
        <lineLoop geometry={parts.outer} material={materials.line} />
      </group>
    </>
  );
}

/** The outline as a flat shape; x, z become the shape's x, y. */
function shadowGeometry(outline: Float64Array): ShapeGeometry {
  const points: Vector2[] = [];
  for (let i = 0; i < outline.length; i += 2) points.push(new Vector2(outline[i], outline[i + 1]));
  return new ShapeGeometry(new Shape(points));
}

function circleGeometry(radius: number): BufferGeometry {
  const points = Float32Array.from({ length: 3 * ROUND }, (_, i) => {
    const angle = (2 * Math.PI * Math.floor(i / 3)) / ROUND;
    return [radius * Math.cos(angle), 0, radius * Math.sin(angle)][i % 3]!;
  });
  return new BufferGeometry().setAttribute('position', new BufferAttribute(points, 3));
}
