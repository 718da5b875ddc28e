import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import type { BufferGeometry } from 'three';
import { useTable } from '../table.ts';
import { attachBrush } from './attach-brush.ts';
import { brushRing } from './brush-ring.ts';

/** Reads the flesh under the pointer; with the brush on, a hand on the form draws instead of turning it. */
export function TissueBrush({ skin }: { readonly skin: BufferGeometry }): ReactElement {
  const { camera, gl, invalidate } = useThree();
  const table = useTable();
  const ring = useMemo(() => brushRing(), []);
  useEffect(
    () => () => {
      ring.geometry.dispose();
      ring.material.dispose();
    },
    [ring],
  );
  useEffect(
    () => attachBrush({ element: gl.domElement, camera, skin, ring, invalidate, table }),
    [gl, camera, skin, ring, invalidate, table],
  );
  return <primitive object={ring} />;
}
