import { useThree } from '@react-three/fiber';
import { useEffect, type ReactElement } from 'react';
import { Mesh, ShaderMaterial, Vector2, type Object3D, type Scene } from 'three';
import { useTable } from '../table.ts';
import { useStageCamera } from './use-stage-camera.ts';

/** Draws the stage at another size than the screen's, by the same renderer and shaders: the same colours. */
export function PictureTaker(): ReactElement | null {
  const { gl, scene, size, viewport, invalidate } = useThree();
  const camera = useStageCamera();
  const { signals } = useTable();
  useEffect(() => {
    signals.draw.set((width, height) => {
      const own = camera.clone();
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

/** Widths of lines for a drawing of the given size (px of the screen) and pixels per one of those. */
function setLines(scene: Scene, ratio: number, size: Vector2): void {
  scene.traverse((object: Object3D) => {
    if (!(object instanceof Mesh) || !(object.material instanceof ShaderMaterial)) return;
    const { pixelRatio, size: rimSize } = object.material.uniforms;
    if (pixelRatio !== undefined) pixelRatio.value = ratio;
    if (rimSize !== undefined) rimSize.value = size;
  });
}
