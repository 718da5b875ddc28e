import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, type ReactElement } from 'react';
import { Vector3, type BufferGeometry, type Camera } from 'three';
import type { BodyTape, TapeReading } from '../../core/body/body-tape.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import { tapeKey } from '../store/body-store.ts';
import { movedTape } from '../store/moved-tape.ts';
import { NO_MARKS, type StageMark } from '../store/stage-signals.ts';
import { useTable } from '../table.ts';
import { boxOnStage, onStage, type StageSize } from './on-stage.ts';
import { freeRoom } from './views.ts';

/** How near the pointer must come to a tape to take it, px. */
const REACH = 9;

/** A tape that a hand has taken. */
interface Hold {
  readonly pointer: number;
  readonly startY: number;
  readonly notes: TapeNotes;
  readonly tape: BodyTape;
  readonly reading: TapeReading;
  /** Pixels down the screen per metre up the tape's axis. */
  readonly scale: number;
  hasMoved: boolean;
}

/** Takes tapes on the stage, draws them up and down, and tells where the shown one is to be labelled. */
export function TapeHand({ skin }: { readonly skin: BufferGeometry }): ReactElement | null {
  const { camera, gl, size } = useThree();
  const { body, bodyDeeds, signals } = useTable();
  useEffect(() => {
    const element = gl.domElement;
    let hold: Hold | null = null;
    const placeOf = (event: PointerEvent): { x: number; y: number } => {
      const { left, top } = element.getBoundingClientRect();
      return { x: event.clientX - left, y: event.clientY - top };
    };
    const under = (event: PointerEvent): TapeReading | null =>
      tapeUnder(body.getState().tape, placeOf(event), { camera, size });
    const take = (event: PointerEvent): void => {
      const { tape } = body.getState();
      const reading = event.button === 0 ? under(event) : null;
      if (tape === null || reading === null) return;
      // The form is not turned by the hand that has a tape.
      event.stopImmediatePropagation();
      element.setPointerCapture(event.pointerId);
      const scale = scaleOf(reading, { camera, size });
      hold = {
        pointer: event.pointerId,
        startY: event.clientY,
        notes: bodyDeeds.tapeNotes(),
        tape,
        reading,
        scale,
        hasMoved: false,
      };
      body.setState({ chosen: tapeKey(reading.line) });
    };
    const move = (event: PointerEvent): void => {
      if (hold !== null && event.pointerId === hold.pointer) {
        const way = (event.clientY - hold.startY) / hold.scale;
        hold.hasMoved ||= Math.abs(event.clientY - hold.startY) > 2;
        if (hold.hasMoved) {
          bodyDeeds.holdTape(movedTape(hold.notes, hold.reading.line, hold.tape.landmarks, way));
        }
        return;
      }
      if (event.buttons !== 0) return;
      const reading = under(event);
      const pointed = reading === null ? null : tapeKey(reading.line);
      element.style.cursor = pointed === null ? '' : 'ns-resize';
      if (body.getState().pointed !== pointed) body.setState({ pointed });
    };
    const letGo = (event: PointerEvent): void => {
      if (hold === null || event.pointerId !== hold.pointer) return;
      hold = null;
      bodyDeeds.letTapeGo();
    };
    const leave = (): void => body.setState({ pointed: null });
    element.addEventListener('pointerdown', take, { capture: true });
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', letGo);
    element.addEventListener('pointercancel', letGo);
    element.addEventListener('pointerleave', leave);
    return () => {
      element.style.cursor = '';
      bodyDeeds.letTapeGo();
      element.removeEventListener('pointerdown', take, { capture: true });
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', letGo);
      element.removeEventListener('pointercancel', letGo);
      element.removeEventListener('pointerleave', leave);
    };
  }, [camera, gl, size, body, bodyDeeds]);

  useFrame(() => {
    const { tape, chosen, pointed } = body.getState();
    const wanted = [...new Set([chosen, pointed])].filter((key) => key !== null);
    const marks = wanted.flatMap((key): StageMark[] => {
      const reading = tape?.readings.find(({ line }) => tapeKey(line) === key);
      return reading === undefined ? [] : [{ key, ...nearestPoint(reading, { camera, size }) }];
    });
    const edges = boxOnStage(skin, { camera, size });
    signals.marks.set({ marks, ...edges, room: freeRoom(size.width, size.height, true) });
  });
  useEffect(() => () => signals.marks.set(NO_MARKS), [signals]);
  return null;
}

interface Eye {
  readonly camera: Camera;
  readonly size: StageSize;
}

/** Corners of a tape on the stage, with whether they face the eye. */
function cornersOf({ points }: TapeReading, eye: Eye): { x: number; y: number; isFacing: boolean }[] {
  const middle = new Vector3();
  const corners = Array.from(
    { length: points.length / 3 },
    (_, i) => new Vector3(points[3 * i], points[3 * i + 1], points[3 * i + 2]),
  );
  for (const corner of corners) middle.addScaledVector(corner, 1 / corners.length);
  return corners.map((corner) => ({
    ...onStage(corner, eye),
    isFacing: corner.clone().sub(middle).dot(eye.camera.position.clone().sub(corner)) > 0,
  }));
}

/** The tape nearest to a place on the stage, within reach, on the side that is seen. */
function tapeUnder(tape: BodyTape | null, place: { x: number; y: number }, eye: Eye): TapeReading | null {
  let best: { readonly reading: TapeReading; readonly away: number } | null = null;
  for (const reading of tape?.readings ?? []) {
    const corners = cornersOf(reading, eye);
    corners.forEach((corner, i) => {
      const next = corners[(i + 1) % corners.length]!;
      if (!corner.isFacing && !next.isFacing) return;
      const away = distanceTo(place, corner, next);
      if (away < REACH && (best === null || away < best.away)) best = { reading, away };
    });
  }
  return (best as { readonly reading: TapeReading } | null)?.reading ?? null;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

function distanceTo(place: Spot, from: Spot, to: Spot): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const squared = dx * dx + dy * dy;
  const share =
    squared === 0
      ? 0
      : Math.min(1, Math.max(0, ((place.x - from.x) * dx + (place.y - from.y) * dy) / squared));
  return Math.hypot(place.x - from.x - share * dx, place.y - from.y - share * dy);
}

/** Pixels down the screen per metre up the tape's axis; never so few that a twitch throws it far. */
function scaleOf({ line }: TapeReading, eye: Eye): number {
  const from = onStage(new Vector3(...line.center), eye);
  const sign = line.normal[1] < 0 ? -1 : 1;
  const to = onStage(
    new Vector3(...line.center).addScaledVector(new Vector3(...line.normal), 0.01 * sign),
    eye,
  );
  const perMetre = 100 * (to.y - from.y);
  return Math.abs(perMetre) < 50 ? -50 : perMetre;
}

/** The corner of a tape that lies most to the right of what is seen: there it is labelled. */
function nearestPoint(reading: TapeReading, eye: Eye): Omit<StageMark, 'key'> {
  const corners = cornersOf(reading, eye);
  const seen = corners.filter(({ isFacing }) => isFacing);
  const { x, y } = (seen.length > 0 ? seen : corners).reduce((best, corner) =>
    corner.x > best.x ? corner : best,
  );
  return { x, y, isVisible: seen.length > 0 };
}
