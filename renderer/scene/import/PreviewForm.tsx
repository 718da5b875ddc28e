import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import {
  BackSide,
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  MeshBasicMaterial,
  type Material,
  type Matrix4,
  type Object3D,
} from 'three';
import { skinParts, type DrawnSurface, type MadeBody, type OpenedScene } from '../../store/import-store.ts';
import { useImport } from '../../table.ts';
import { skinMaterial } from '../skin-material.ts';
import { HoleMarks } from './HoleMarks.tsx';
import type { PreviewStand } from './stand-preview.ts';
import type { Inks } from './use-inks.ts';

interface PreviewFormProps {
  readonly opened: OpenedScene;
  /** Of the answers as they are; null while it is being made. */
  readonly made: MadeBody | null;
  readonly stand: PreviewStand;
  readonly inks: Inks;
}

/** The file's surface until a body is made of it; then the body. What is left out of it is a veil. */
export function PreviewForm({ opened, made, stand, inks }: PreviewFormProps): ReactElement {
  const { invalidate } = useThree();
  const { skin, veil } = useMaterials(inks);
  const isSkin = useImport(skinParts);
  const file = useSurface(opened.surface);
  const body = useSurface(made?.surface ?? null);
  const drawn = useMemo(() => (made === null ? [skin, veil] : [NOTHING, veil]), [made, skin, veil]);
  useEffect(() => {
    if (file === null) return;
    groupParts(file, opened, made === null ? isSkin : '');
    invalidate();
  }, [file, opened, made, isSkin, invalidate]);
  return (
    <>
      <mesh geometry={file!} material={drawn} visible={!stand.isFileFar} {...placedBy(stand.ofFile)} />
      {body !== null && made !== null && (
        <group {...placedBy(stand.ofBody)}>
          <mesh geometry={body} material={skin} name="skin" />
          <HoleMarks steps={made.report.steps} inks={inks} metres={metresOf(stand.ofBody)} />
        </group>
      )}
    </>
  );
}

/** Stands for a material where nothing is to be drawn with it. */
const NOTHING = new MeshBasicMaterial({ visible: false });
const SKIN = 0;
const VEIL = 1;

/** Every part with the skin's material or the veil's. `skin` holds a 1 for each part that is skin. */
function groupParts(geometry: BufferGeometry, { parts }: OpenedScene, skin: string): void {
  geometry.clearGroups();
  let start = 0;
  parts.forEach(({ triangleCount }, part) => {
    geometry.addGroup(start, 3 * triangleCount, skin[part] === '1' ? SKIN : VEIL);
    start += 3 * triangleCount;
  });
}

/** Metres of the body per measure of the stage. */
const metresOf = ({ elements }: Matrix4): number => 1 / elements[0];

/** Stands where a matrix says; three looks at it anew only when told to. */
const placedBy = (matrix: Matrix4) => ({
  matrixAutoUpdate: false,
  matrix,
  onUpdate: (object: Object3D): void => {
    object.matrixWorldNeedsUpdate = true;
  },
});

function useMaterials({ ink }: Inks): { readonly skin: Material; readonly veil: Material } {
  const materials = useMemo(() => {
    const skin = skinMaterial();
    // Through an open hole one sees the inside.
    skin.side = DoubleSide;
    const veil = new MeshBasicMaterial({
      color: ink,
      opacity: 0.16,
      transparent: true,
      depthWrite: false,
      // Only what lies behind: a shell round the body does not hide it.
      side: BackSide,
      polygonOffset: true,
      polygonOffsetFactor: 2,
      polygonOffsetUnits: 4,
      toneMapped: false,
    });
    return { skin, veil };
  }, [ink]);
  useEffect(
    () => () => {
      materials.skin.dispose();
      materials.veil.dispose();
    },
    [materials],
  );
  return materials;
}

/** On the graphics card as long as it is shown. */
function useSurface(surface: DrawnSurface | null): BufferGeometry | null {
  const geometry = useMemo(() => (surface === null ? null : surfaceGeometry(surface)), [surface]);
  useEffect(() => () => geometry?.dispose(), [geometry]);
  return geometry;
}

function surfaceGeometry({ positions, normals, triangles }: DrawnSurface): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  geometry.computeBoundingSphere();
  return geometry;
}
