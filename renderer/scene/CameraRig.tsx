import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef, type ReactElement } from 'react';
import { MOUSE, TOUCH, Vector3, type Box3, type PerspectiveCamera } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { ViewName } from '../../core/words/stage-words.ts';
import type { ViewWish } from '../store/view-store.ts';
import { useTable, useView } from '../table.ts';
import { useStageCamera } from './use-stage-camera.ts';
import {
  between,
  directionOf,
  distanceFor,
  ease,
  frameOf,
  freeRoom,
  positionOf,
  standOf,
  type Stand,
} from './views.ts';

/** How long a view takes to come, ms. */
const EASE_TIME = 200;
const DEGREE = Math.PI / 180;

/** A way from one stand to another. */
interface Move {
  readonly from: Stand;
  readonly to: Stand;
  readonly fromTarget: Vector3;
  readonly toTarget: Vector3;
  readonly begun: number;
}

/** The boxes that frames are made from. */
interface CameraRigProps {
  readonly cloth: Box3;
  readonly skin: Box3;
  /** Another stand for the three-quarter view. */
  readonly threeQuarter?: Direction;
}

type Direction = ReturnType<typeof directionOf>;

/** Turns, moves and approaches by hand, and goes to standard views on wish. Boxes that change leave the camera where it is. */
export function CameraRig({ cloth, skin, threeQuarter }: CameraRigProps): ReactElement | null {
  const { gl, invalidate, size } = useThree();
  const camera = useStageCamera();
  const { view } = useTable();
  const controls = useRef<OrbitControls | null>(null);
  const move = useRef<Move | null>(null);
  const { width, height } = size;
  const isLeafOpen = useView(({ leaf }) => leaf !== null);
  useFreeMiddle(isLeafOpen);
  const boxes = useRef({ cloth, skin });
  useEffect(() => {
    boxes.current = { cloth, skin };
  }, [cloth, skin]);

  useEffect(() => {
    const orbit = createControls(camera, gl.domElement);
    const draw = (): void => invalidate();
    const letGo = (): void => {
      move.current = null;
    };
    orbit.addEventListener('change', draw);
    orbit.addEventListener('start', letGo);
    controls.current = orbit;
    return () => {
      orbit.removeEventListener('change', draw);
      orbit.removeEventListener('start', letGo);
      orbit.dispose();
      controls.current = null;
    };
  }, [camera, gl, invalidate]);

  useEffect(() => {
    const follow = (wish: ViewWish, isFirst: boolean): void => {
      const orbit = controls.current;
      if (orbit === null) return;
      const from = standOf(camera.position, orbit.target);
      const frame = frameOf(wish.framing, boxes.current.cloth, boxes.current.skin);
      // As if a leaf lay open, so that opening one never covers the garment.
      const room = freeRoom(width, height, true);
      const near = { ...from, distance: distanceFor(frame, room, height) };
      const [to, toTarget] =
        wish.turn === null
          ? [wish.view === null ? near : { ...near, ...directionIn(wish.view, threeQuarter) }, frame.target]
          : [turned(from, wish.turn), orbit.target.clone()];
      move.current = {
        from,
        to,
        fromTarget: orbit.target.clone(),
        toTarget,
        begun: isFirst ? -Infinity : performance.now(),
      };
      invalidate();
    };
    // A new form is framed at once; later wishes are eased.
    follow({ ...view.getState().wish, view: view.getState().wish.view ?? 'threeQuarter', turn: null }, true);
    return view.subscribe(({ wish }, before) => {
      if (wish.count !== before.wish.count) follow(wish, false);
    });
  }, [view, width, height, camera, invalidate, threeQuarter]);

  useFrame(() => {
    const orbit = controls.current;
    if (orbit === null) return;
    const way = move.current;
    if (way !== null) {
      const share = Math.min(1, (performance.now() - way.begun) / EASE_TIME);
      const eased = ease(share);
      orbit.target.lerpVectors(way.fromTarget, way.toTarget, eased);
      camera.position.copy(positionOf(between(way.from, way.to, eased), orbit.target));
      if (share === 1) move.current = null;
      else invalidate();
    }
    orbit.update();
  });
  return null;
}

/** Keeps the form in the middle of the room that paper leaves free, easing there when a leaf opens. */
function useFreeMiddle(isLeafOpen: boolean): void {
  const { size, invalidate } = useThree();
  const camera = useStageCamera();
  const slide = useRef({ from: 0, to: 0, begun: -Infinity });
  useEffect(() => {
    const { left, right } = freeRoom(size.width, size.height, isLeafOpen);
    const to = (left + right) / 2 - size.width / 2;
    const { to: before, begun } = slide.current;
    slide.current = { from: before, to, begun: begun === -Infinity ? 0 : performance.now() };
    invalidate();
  }, [isLeafOpen, size, invalidate]);
  useFrame(() => {
    const { from, to, begun } = slide.current;
    const share = Math.min(1, (performance.now() - begun) / EASE_TIME);
    const shift = from + (to - from) * ease(share);
    const { width, height } = size;
    camera.setViewOffset(width, height, -shift, 0, width, height);
    if (share < 1) invalidate();
  });
}

const directionIn = (view: ViewName, threeQuarter: Direction | undefined): Direction =>
  view === 'threeQuarter' && threeQuarter !== undefined ? threeQuarter : directionOf(view);

function turned(from: Stand, turn: NonNullable<ViewWish['turn']>): Stand {
  const polar = from.polar + turn.over * DEGREE;
  return {
    distance: from.distance * turn.distance,
    polar: Math.min(Math.PI - 0.05, Math.max(0.05, polar)),
    azimuth: from.azimuth + turn.around * DEGREE,
  };
}

function createControls(camera: PerspectiveCamera, element: HTMLElement): OrbitControls {
  const orbit = new OrbitControls(camera, element);
  orbit.enableDamping = true;
  orbit.dampingFactor = 0.12;
  orbit.rotateSpeed = 0.8;
  orbit.zoomSpeed = 0.9;
  orbit.minDistance = 0.3;
  orbit.maxDistance = 14;
  orbit.mouseButtons = { LEFT: MOUSE.ROTATE, MIDDLE: MOUSE.PAN, RIGHT: MOUSE.PAN };
  orbit.touches = { ONE: TOUCH.ROTATE, TWO: TOUCH.DOLLY_PAN };
  return orbit;
}
