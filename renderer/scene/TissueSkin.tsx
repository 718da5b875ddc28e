import type { ReactElement } from 'react';
import type { BufferGeometry } from 'three';
import type { SettledStudy } from '../store/study-store.ts';

interface TissueSkinProps {
  readonly settled: SettledStudy;
  readonly skin: BufferGeometry;
}

export function TissueSkin({ skin }: TissueSkinProps): ReactElement {
  return <mesh geometry={skin} name="skin" />;
}
