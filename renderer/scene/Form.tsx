import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import { Vector2, Vector3, type Box3, type DataTexture, type ShaderMaterial } from 'three';
import type { FieldId } from '../../core/fields/field.ts';
import type { ColourRange, RampName } from '../../core/sheet/colour-scale.ts';
import { legendOf } from '../../core/sheet/legend.ts';
import { rampFor } from '../../core/sheet/field-range.ts';
import { hatchStroke, OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';
import { wornAt, type SettledStudy } from '../store/study-store.ts';
import { hatchMargin, paintedField, rangeOf } from '../store/view-store.ts';
import { useIsBare, useView } from '../table.ts';
import { BareForm } from './BareForm.tsx';
import { CameraRig } from './CameraRig.tsx';
import { clothMaterial, rimMaterial, screenColour } from './cloth-material.ts';
import { clothGeometry, paintField, skinGeometry, type WornForm } from './form-geometry.ts';
import { EdgeMark } from './EdgeMark.tsx';
import { NotchTracker } from './NotchTracker.tsx';
import { PictureTaker } from './PictureTaker.tsx';
import { PointerPick } from './PointerPick.tsx';
import { rampTexture } from './ramp-texture.ts';
import { skinMaterial } from './skin-material.ts';

interface FormProps {
  readonly settled: SettledStudy;
  /** Tells a study that was laid anew from one that settled again. */
  readonly laid: number;
}

/** Body and cloth of a settled study; every fabric that was looked at stays resident, a swap only changes which one is drawn. */
export function Form({ settled, laid }: FormProps): ReactElement {
  const forms = useMemo(() => wornForms(settled), [settled]);
  useEffect(() => forms.dispose, [forms]);
  const fabric = useView((view) => (view.showing === 'difference' ? 0 : view.fabric));
  const drawn = forms.at(fabric);
  const boxes = useMemo(() => boxesOf(drawn), [drawn]);
  const isBare = useIsBare();
  return (
    <>
      {isBare ? (
        <BareForm settled={settled} />
      ) : (
        <Meshes drawn={drawn} settled={settled} cloth={boxes.cloth} />
      )}
      <CameraRig key={laid} cloth={boxes.cloth} skin={boxes.skin} />
      {!isBare && <PointerPick drawn={drawn} settled={settled} />}
      {!isBare && settled.cut !== null && <EdgeMark drawn={drawn} edges={settled.cut.edges} />}
      <NotchTracker drawn={drawn} settled={settled} />
      <PictureTaker />
    </>
  );
}

interface MeshesProps {
  readonly cloth: Box3;
  readonly drawn: WornForm;
  readonly settled: SettledStudy;
}

function Meshes({ drawn, settled, cloth }: MeshesProps): ReactElement {
  const { invalidate, size, viewport } = useThree();
  const materials = useMaterials();
  const view = useView((state) => state);
  const field = paintedField(settled, view);
  const range = rangeOf(view);
  const ramp = rampFor(field.kind, view.ramp);
  const { isolineStep } = useMemo(
    () => legendOf({ field, range, vertexArea: wornAt(settled, 0).vertexArea, isDifference: false }),
    [field, range, settled],
  );

  const { field: id, showing, fabric } = view;
  const margin = useMemo(
    () => hatchMargin(settled, { field: id, showing, fabric }),
    [settled, id, showing, fabric],
  );

  useEffect(() => {
    paintField(drawn.cloth, field, margin);
    invalidate();
  }, [drawn, field, margin, invalidate]);

  useEffect(() => {
    setLook(materials, { ramp, range, isolineStep, id, cloth, dpr: viewport.dpr, size });
    invalidate();
  }, [materials, ramp, range, isolineStep, id, cloth, viewport.dpr, size, invalidate]);

  return (
    <group>
      <mesh geometry={drawn.skin} material={materials.skin} name="skin" />
      <mesh geometry={drawn.cloth} material={materials.cloth} name="cloth" />
      <mesh geometry={drawn.cloth} material={materials.rim} name="rim" />
    </group>
  );
}

/** What the materials are told when the view changes. */
interface Look {
  readonly ramp: RampName;
  readonly range: ColourRange;
  readonly isolineStep: number;
  readonly id: FieldId;
  readonly cloth: Box3;
  readonly dpr: number;
  readonly size: { readonly width: number; readonly height: number };
}

function setLook({ cloth, rim, ramps }: Materials, look: Look): void {
  const { x, z } = look.cloth.getCenter(new Vector3());
  const told = {
    ramp: ramps[look.ramp],
    low: look.range.low,
    high: look.range.high,
    isolineStep: look.isolineStep,
    pixelRatio: look.dpr,
    stroke: screenColour(hatchStroke(look.id)),
    axis: new Vector2(x, z),
  };
  for (const [name, value] of Object.entries(told)) cloth.uniforms[name]!.value = value;
  rim.uniforms['size']!.value = new Vector2(look.size.width, look.size.height);
}

interface Materials {
  readonly ramps: Readonly<Record<RampName, DataTexture>>;
  readonly cloth: ShaderMaterial;
  readonly rim: ShaderMaterial;
  readonly skin: ShaderMaterial;
}

function useMaterials(): Materials {
  const materials = useMemo(() => {
    const ramps = {
      viridis: rampTexture('viridis'),
      cividis: rampTexture('cividis'),
      blueRed: rampTexture('blueRed'),
    };
    return {
      ramps,
      cloth: clothMaterial(ramps.viridis),
      rim: rimMaterial(OUTSIDE_COLOURS.ink),
      skin: skinMaterial(),
    };
  }, []);
  useEffect(
    () => () => {
      materials.cloth.dispose();
      materials.rim.dispose();
      materials.skin.dispose();
      for (const ramp of Object.values(materials.ramps)) ramp.dispose();
    },
    [materials],
  );
  return materials;
}

/** The forms of a settled study, each made when it is first looked at. */
interface WornForms {
  readonly at: (fabric: number) => WornForm;
  readonly dispose: () => void;
}

function wornForms(settled: SettledStudy): WornForms {
  const made = new Map<SettledStudy['worn'][number], WornForm>();
  return {
    at: (fabric) => {
      const worn = wornAt(settled, fabric);
      const form = made.get(worn) ?? {
        cloth: clothGeometry(worn.positions, settled.clothTriangles, settled.edgeVertex),
        skin: skinGeometry(worn.givenSkin, settled.skin.triangles, worn.givenNormals),
      };
      made.set(worn, form);
      return form;
    },
    dispose: () => {
      for (const { cloth, skin } of made.values()) {
        cloth.dispose();
        skin.dispose();
      }
    },
  };
}

function boxesOf({ cloth, skin }: WornForm): { cloth: Box3; skin: Box3 } {
  cloth.computeBoundingBox();
  skin.computeBoundingBox();
  return { cloth: cloth.boundingBox!, skin: skin.boundingBox! };
}
