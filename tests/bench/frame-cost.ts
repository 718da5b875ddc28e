/**
 * Runs in a page: cost of a frame of our painted form beside the same meshes in three.js' plainest material. Both scenes
 * are drawn in turn by one renderer, so that what else the machine does hurts both alike.
 */
import { Mesh, MeshBasicMaterial, PerspectiveCamera, Scene, WebGLRenderer, type Material } from 'three';
import { clothMaterial } from '../../renderer/scene/cloth-material.ts';
import { clothGeometry, paintField, skinGeometry } from '../../renderer/scene/form-geometry.ts';
import { rampTexture } from '../../renderer/scene/ramp-texture.ts';
import { skinMaterial } from '../../renderer/scene/skin-material.ts';
import { makeFitBody } from '../../core/body/fit-body.ts';
import { makeTube } from '../../core/garment/make-tube.ts';

/** Milliseconds a frame, both scenes. */
export interface FrameCost {
  readonly vertexCount: number;
  readonly ours: number;
  readonly bare: number;
}

const FRAMES = 40;

function frameCost(edge: number): FrameCost {
  const body = makeFitBody({ stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01 });
  const sheet = {
    region: 'trunk',
    from: 0.88,
    to: 1.1,
    girths: [{ at: 1, relaxed: 0.6 }],
    relaxedLength: 0.2,
    warp: 'along',
  } as const;
  const { garment } = makeTube(sheet, body, edge);
  const { mesh, edgeVertex } = garment.levels.at(-1)!;
  const cloth = clothGeometry(mesh.positions, mesh.triangles, edgeVertex);
  const values = Float64Array.from(edgeVertex, (_, v) => (v % 997) / 997);
  paintField(cloth, { values, undefinedAt: new Uint8Array(values.length) }, null);
  const skin = skinGeometry(body.skin.positions, body.skin.triangles);
  const scene = (clothLook: Material, skinLook: Material) =>
    new Scene().add(new Mesh(cloth, clothLook), new Mesh(skin, skinLook));
  const ours = scene(clothMaterial(rampTexture('viridis')), skinMaterial());
  const bare = scene(new MeshBasicMaterial(), new MeshBasicMaterial());
  const renderer = new WebGLRenderer();
  renderer.setSize(1280, 800);
  const camera = new PerspectiveCamera(30, 1.6, 0.1, 10);
  const pixel = new Uint8Array(4);
  const context = renderer.getContext();
  const timed = (what: Scene, turn: number): number => {
    camera.position.set(1.2 * Math.sin(turn), 1, 1.2 * Math.cos(turn));
    camera.lookAt(0, 1, 0);
    const start = performance.now();
    renderer.render(what, camera);
    // Reading a pixel waits for the frame to be finished.
    context.readPixels(0, 0, 1, 1, context.RGBA, context.UNSIGNED_BYTE, pixel);
    return performance.now() - start;
  };
  timed(ours, 0);
  timed(bare, 0);
  const costs = { ours: 0, bare: 0 };
  for (let frame = 0; frame < FRAMES; frame++) {
    costs.ours += timed(ours, frame / 10) / FRAMES;
    costs.bare += timed(bare, frame / 10) / FRAMES;
  }
  return { vertexCount: edgeVertex.length + body.skin.positions.length / 3, ...costs };
}

Object.assign(globalThis, { frameCost });
