import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import { BufferAttribute, Vector2, Vector3, type BufferGeometry, type ShaderMaterial } from 'three';
import type { TissueMap } from '../../core/body/tissue-map.ts';
import { tissueLegend, tissueRange, type TissueShown } from '../../core/sheet/tissue-legend.ts';
import type { RampName } from '../../core/sheet/colour-scale.ts';
import { OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';
import type { ShownFlesh } from '../store/body-store.ts';
import { NO_MARKS, type StageMark } from '../store/stage-signals.ts';
import { useBody, useTable, useView } from '../table.ts';
import { clothMaterial, rimMaterial } from './cloth-material.ts';
import { boxOnStage, onStage, type StageSize } from './on-stage.ts';
import { rampTexture } from './ramp-texture.ts';
import { skinMaterial } from './skin-material.ts';
import { TissueBrush } from './TissueBrush.tsx';
import { freeRoom } from './views.ts';

interface TissueSkinProps {
  readonly skin: BufferGeometry;
  /** Null while it is being read. */
  readonly flesh: ShownFlesh | null;
}

/** The flesh as a map on the bare form, its bony places marked. */
export function TissueSkin({ skin, flesh }: TissueSkinProps): ReactElement {
  const plain = useMemo(() => skinMaterial(), []);
  useEffect(() => () => plain.dispose(), [plain]);
  if (flesh === null) return <mesh geometry={skin} material={plain} name="skin" />;
  return (
    <>
      <PaintedSkin skin={skin} flesh={flesh} />
      <BonyMarks skin={skin} flesh={flesh} />
      <TissueBrush skin={skin} />
    </>
  );
}

interface ReadProps {
  readonly skin: BufferGeometry;
  readonly flesh: ShownFlesh;
}

function PaintedSkin({ skin, flesh: { map } }: ReadProps): ReactElement {
  const { size, viewport, invalidate } = useThree();
  const shown = useBody((body) => body.fleshShown);
  const ramp = useView((view) => view.ramp);
  const materials = useMemo(() => tissueMaterials(ramp), [ramp]);
  useEffect(() => materials.dispose, [materials]);
  useEffect(() => {
    paintSkin(skin, map, shown);
    setLook(materials, { map, shown, dpr: viewport.dpr, size });
    invalidate();
  }, [skin, map, shown, materials, viewport.dpr, size, invalidate]);
  return (
    <group>
      <mesh geometry={skin} material={materials.paint} name="tissue" />
      <mesh geometry={skin} material={materials.rim} name="rim" />
    </group>
  );
}

interface TissueMaterials {
  readonly paint: ShaderMaterial;
  readonly rim: ShaderMaterial;
  readonly dispose: () => void;
}

function tissueMaterials(name: RampName): TissueMaterials {
  const ramp = rampTexture(name);
  const paint = clothMaterial(ramp);
  const rim = rimMaterial(OUTSIDE_COLOURS.ink);
  const dispose = (): void => {
    for (const each of [ramp, paint, rim]) each.dispose();
  };
  return { paint, rim, dispose };
}

/** Writes the painted quantity onto the skin; nothing of it is missing, no edge is a hem. */
function paintSkin(skin: BufferGeometry, map: TissueMap, shown: TissueShown): void {
  const values = map[shown];
  skin.setAttribute('value', new BufferAttribute(Float32Array.from(values), 1));
  if (skin.hasAttribute('missing')) return;
  for (const name of ['missing', 'hem']) {
    skin.setAttribute(name, new BufferAttribute(new Float32Array(values.length), 1));
  }
}

/** What the materials are told when the view changes. */
interface Look {
  readonly map: TissueMap;
  readonly shown: TissueShown;
  readonly dpr: number;
  readonly size: StageSize;
}

function setLook({ paint, rim }: TissueMaterials, { map, shown, dpr, size }: Look): void {
  const range = tissueRange(map, shown);
  const { isolineStep } = tissueLegend(map, shown, new Float64Array(map.depth.length));
  const told = { low: range.low, high: range.high, isolineStep, pixelRatio: dpr };
  for (const [name, value] of Object.entries(told)) paint.uniforms[name]!.value = value;
  rim.uniforms['size']!.value = new Vector2(size.width, size.height);
}

/** Follows the bony places on the screen; those on the far side are hidden. */
function BonyMarks({ skin, flesh: { bony } }: ReadProps): ReactElement | null {
  const { camera, size } = useThree();
  const { signals } = useTable();
  const places = useMemo(() => {
    const { array: at } = skin.getAttribute('position');
    const { array: out } = skin.getAttribute('normal');
    return bony.map(({ point }, index) => {
      const v = nearestVertex(at, point);
      return {
        key: String(index),
        point: new Vector3(...point),
        normal: new Vector3(out[3 * v], out[3 * v + 1], out[3 * v + 2]),
      };
    });
  }, [skin, bony]);
  useEffect(() => () => signals.marks.set(NO_MARKS), [signals]);
  useFrame(() => {
    const eye = { camera, size };
    const marks = places.map(({ key, point, normal }): StageMark => ({
      key,
      ...onStage(point, eye),
      isVisible: normal.dot(camera.position.clone().sub(point).normalize()) > 0.15,
    }));
    signals.marks.set({ marks, ...boxOnStage(skin, eye), room: freeRoom(size.width, size.height, true) });
  });
  return null;
}

function nearestVertex(positions: ArrayLike<number>, [x, y, z]: readonly [number, number, number]): number {
  let best = Infinity;
  let nearest = 0;
  for (let v = 0; 3 * v < positions.length; v++) {
    const squared =
      (positions[3 * v]! - x) ** 2 + (positions[3 * v + 1]! - y) ** 2 + (positions[3 * v + 2]! - z) ** 2;
    if (squared < best) [best, nearest] = [squared, v];
  }
  return nearest;
}
