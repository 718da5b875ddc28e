import { Canvas } from '@react-three/fiber';
import { useState, type ReactElement } from 'react';
import { CANNOT_DRAW_WORDS } from '../../core/words/stage-words.ts';
import { useStudy } from '../table.ts';
import { canDraw } from './can-draw.ts';
import { Form } from './Form.tsx';
import { LENS } from './views.ts';

/** The stage: the form in the middle of the table, nothing else. */
export function Stage(): ReactElement {
  const settled = useStudy((state) => state.shown?.settled ?? null);
  const laid = useStudy((state) => state.shown?.laid ?? 0);
  const [isAble] = useState(canDraw);
  if (!isAble) {
    return (
      <p className="cannot-draw" role="alert">
        {CANNOT_DRAW_WORDS.what} <span className="soft">{CANNOT_DRAW_WORDS.remedy}</span>
      </p>
    );
  }
  return (
    <Canvas
      flat
      frameloop="demand"
      dpr={[1, 2]}
      camera={{ fov: LENS, near: 0.1, far: 30, position: [0, 1, 4] }}
      gl={{ antialias: true, alpha: true, preserveDrawingBuffer: false }}
    >
      {settled !== null && <Form settled={settled} laid={laid} />}
    </Canvas>
  );
}
