import { useThree } from '@react-three/fiber';
import { PerspectiveCamera } from 'three';

/** The stage's camera, which has a lens; fiber knows it as any camera. */
export function useStageCamera(): PerspectiveCamera {
  const camera = useThree((state) => state.camera);
  if (!(camera instanceof PerspectiveCamera)) throw new Error('The stage has a lens.');
  return camera;
}
