import { useThree } from '@react-three/fiber';
import { useEffect, type ReactElement } from 'react';
import { PerspectiveCamera, ShaderMaterial, Vector2, type Mesh } from 'three';
import { useTable } from '../table.ts';

/** Draws the stage at another size than the screen's, by the same renderer and shaders: the same colours. */
export function PictureTaker(): ReactElement | null {
  const { gl, scene, camera, size, viewport, invalidate } = useThree();
  const { signals } = useTable();
  useEffect(() => {
    signals.draw.set((width, height) => {
      const own = (camera as PerspectiveCamera).clone();
      own.aspect = width / height;
      // The form moves left, away from the legend.
      own.setViewOffset(width, height, 0.07 * width, 0, width, height);
      // Lines keep their width against the form: a picture is a larger print, not a sharper screen.
      const scale = height / size.height;
      setLines(scene, scale, new Vector2(width / scale, height / scale));
      gl.setPixelRatio(1);
      gl.setSize(width, height, false);
      gl.render(scene, own);
      const copy = document.createElement('canvas');
      copy.width = width;
      copy.height = height;
      // In the same turn as the drawing: afterwards the drawing buffer may be empty.
      copy.getContext('2d')!.drawImage(gl.domElement, 0, 0);
      setLines(scene, viewport.dpr, new Vector2(size.width, size.height));
      gl.setPixelRatio(viewport.dpr);
      gl.setSize(size.width, size.height, false);
      invalidate();
      return copy;
    });
    return () => signals.draw.set(null);
  }, [gl, scene, camera, size, viewport.dpr, signals, invalidate]);
  return null;
}

function setLines(
  scene: { traverse: (visit: (object: object) => void) => void },
  ratio: number,
  size: Vector2,
): void {
  scene.traverse((object) => {
    const { material } = object as Partial<Mesh>;
    if (!(material instanceof ShaderMaterial)) return;
    const { pixelRatio, size: rimSize } = material.uniforms;
    if (pixelRatio !== undefined) pixelRatio.value = ratio;
    if (rimSize !== undefined) (rimSize.value as Vector2).copy(size);
  });
}
