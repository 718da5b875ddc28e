import { Canvas } from '@react-three/fiber';
import type { ReactElement } from 'react';
import { useStudy } from '../table.ts';
import { Form } from './Form.tsx';
import { LENS } from './views.ts';

/** The stage: the form in the middle of the table, nothing else. */
export function Stage(): ReactElement {
  const settled = useStudy((state) => state.shown?.settled ?? null);
  return (
    <Canvas
      flat
      frameloop="demand"
      dpr={[1, 2]}
      camera={{ fov: LENS, near: 0.1, far: 30, position: [0, 1, 4] }}
      gl={{ antialias: true, alpha: true, preserveDrawingBuffer: false }}
    >
      {settled !== null && <Form settled={settled} />}
    </Canvas>
  );
}
