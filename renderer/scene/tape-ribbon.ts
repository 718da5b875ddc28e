import { BufferAttribute, BufferGeometry, DoubleSide, ShaderMaterial } from 'three';
import type { TapeReading } from '../../core/body/body-tape.ts';
import { screenColour } from './cloth-material.ts';

type Reading = Pick<TapeReading, 'points' | 'line'>;

/** So far off the skin that no facet comes through, m. */
const LIFT = 0.0022;

/** Middle of the points, 3. */
function middleOf(points: Float64Array): [number, number, number] {
  const middle: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) middle[i % 3]! += (3 * points[i]!) / points.length;
  return middle;
}

/** The tape as it lies, a little off the skin, closed: the first point again at the end. 3 per point, m. */
export function liftedTape({ points }: Reading): Float32Array {
  const middle = middleOf(points);
  const count = points.length / 3;
  const lifted = new Float32Array(3 * (count + 1));
  for (let i = 0; i <= count; i++) {
    const from = 3 * (i % count);
    const out = [0, 1, 2].map((k) => points[from + k]! - middle[k]!);
    const length = Math.max(1e-6, Math.hypot(...out));
    for (let k = 0; k < 3; k++) lifted[3 * i + k] = points[from + k]! + (LIFT * out[k]!) / length;
  }
  return lifted;
}

/** Width of a tailor's tape, m. */
const WIDTH = 0.018;

/** A closed strip as wide as a tailor's tape; `run` is the way along it, m. */
export function ribbonGeometry(reading: Reading): BufferGeometry {
  const { normal } = reading.line;
  const lifted = liftedTape(reading);
  const count = lifted.length / 3;
  const positions = new Float32Array(6 * count);
  const run = new Float32Array(2 * count);
  const across = new Float32Array(2 * count);
  let way = 0;
  for (let i = 0; i < count; i++) {
    const at = 3 * i;
    if (i > 0) way += Math.hypot(...[0, 1, 2].map((k) => lifted[at + k]! - lifted[at - 3 + k]!));
    for (const edge of [0, 1]) {
      const offset = (edge - 0.5) * WIDTH;
      for (let k = 0; k < 3; k++) positions[6 * i + 3 * edge + k] = lifted[at + k]! + offset * normal[k]!;
      run[2 * i + edge] = way;
      across[2 * i + edge] = edge;
    }
  }
  const triangles: number[] = [];
  for (let i = 0; i + 1 < count; i++) {
    triangles.push(2 * i, 2 * i + 2, 2 * i + 1, 2 * i + 1, 2 * i + 2, 2 * i + 3);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('run', new BufferAttribute(run, 1));
  geometry.setAttribute('across', new BufferAttribute(across, 1));
  geometry.setIndex(triangles);
  return geometry;
}

const vertexShader = /* glsl */ `
  attribute float run;
  attribute float across;
  varying float vRun;
  varying float vAcross;
  void main() {
    vRun = run;
    vAcross = across;
    gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  }
`;

// A mark every centimetre from the lower edge, a longer one every five; they fade where the screen cannot part them.
const fragmentShader = /* glsl */ `
  uniform vec3 paper;
  uniform vec3 ink;
  varying float vRun;
  varying float vAcross;
  float mark(float step, float reach) {
    float place = vRun / step;
    float width = fwidth(place);
    float away = abs(fract(place - 0.5) - 0.5);
    float line = 1.0 - smoothstep(0.5 * width, 1.5 * width, away);
    return line * (1.0 - smoothstep(0.12, 0.3, width)) * (vAcross < reach ? 1.0 : 0.0);
  }
  void main() {
    float edge = fwidth(vAcross);
    float rim = max(1.0 - smoothstep(0.7 * edge, 1.5 * edge, vAcross), 1.0 - smoothstep(0.7 * edge, 1.5 * edge, 1.0 - vAcross));
    float drawn = max(rim, max(mark(0.01, 0.45), mark(0.05, 0.8)));
    gl_FragColor = vec4(mix(paper, ink, drawn), 1.0);
  }
`;

/** A tailor's tape: paper, ink edges, marks. */
export const ribbonMaterial = (): ShaderMaterial =>
  new ShaderMaterial({
    vertexShader,
    fragmentShader,
    side: DoubleSide,
    toneMapped: false,
    uniforms: { paper: { value: screenColour('#fcfbf8') }, ink: { value: screenColour('#22262a') } },
  });
