import { BackSide, Color, DoubleSide, ShaderMaterial, Vector2, type DataTexture } from 'three';
import { OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';

/** The hatch of places without a value: distance between lines up the form, m, and lines met going once round (32 divides it). */
const HATCH = 0.0075;
const HATCHES_ROUND = 96;

const vertexShader = /* glsl */ `
  attribute float value;
  attribute float missing;
  attribute float hem;
  varying float vValue;
  varying float vMissing;
  varying float vHem;
  varying vec3 vPlace;
  void main() {
    vValue = value;
    vMissing = missing;
    vHem = hem;
    vPlace = position;
    gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  }
`;

// The ramp's bytes are written as they are: no lighting, no colour conversion, so that a colour reads back to its value.
const fragmentShader = /* glsl */ `
  uniform sampler2D ramp;
  uniform float low;
  uniform float high;
  uniform float isolineStep;
  uniform float pixelRatio;
  uniform float hatch;
  uniform float hatchesRound;
  uniform vec2 axis;
  uniform vec3 below;
  uniform vec3 above;
  uniform vec3 blank;
  uniform vec3 stroke;
  uniform vec3 ink;
  varying float vValue;
  varying float vMissing;
  varying float vHem;
  varying vec3 vPlace;

  /** 1 within half a width (px) of a place where x is whole. */
  float lineAt(float x, float width) {
    float slope = fwidth(x);
    // Flat places have no line, crowded ones would be nothing but lines.
    if (slope < 1e-5 || slope > 0.7) return 0.0;
    float away = abs(x - floor(x + 0.5)) / slope;
    return 1.0 - smoothstep(0.5 * width - 0.5, 0.5 * width + 0.5, away);
  }

  vec3 hatched() {
    // Slanting lines on a cylinder; whole turns are whole lines, so that they close behind.
    vec2 spoke = vPlace.xz - axis;
    float across = vPlace.y / hatch + hatchesRound * atan(spoke.x, spoke.y) / 6.28318531;
    // The angle jumps behind: of two slopes, taken half a turn apart, the smaller is the true one.
    float slope = min(fwidth(across), fwidth(vPlace.y / hatch + hatchesRound * atan(-spoke.x, -spoke.y) / 6.28318531));
    // Seen from afar every second line is left out, then every second of those, so that lines stay apart.
    float apart = exp2(clamp(ceil(log2(max(3.5 * pixelRatio * slope, 1.0))), 0.0, 5.0));
    float away = abs(fract(across / apart) - 0.5) * apart / max(slope, 1e-6);
    float line = 1.0 - smoothstep(0.6 * pixelRatio - 0.5, 0.6 * pixelRatio + 0.5, away);
    return mix(blank, stroke, line);
  }

  void main() {
    float at = (vValue - low) / (high - low);
    vec3 colour = texture2D(ramp, vec2((clamp(at, 0.0, 1.0) * 255.0 + 0.5) / 256.0, 0.5)).rgb;
    float pale = dot(colour, vec3(0.299, 0.587, 0.114));
    // A value on the very end of the range, but for rounding, is on the ramp.
    if (at < -1e-4) colour = below;
    if (at > 1.0001) colour = above;
    float line = lineAt(vValue / isolineStep, 1.1 * pixelRatio);
    vec3 lineColour = pale > 0.42 ? vec3(0.07, 0.09, 0.11) : vec3(0.93, 0.95, 0.97);
    colour = mix(colour, lineColour, line * (pale > 0.42 ? 0.55 : 0.5));
    if (vMissing > 0.5) colour = hatched();
    // The lift-off line, between what is painted and what is hatched.
    float edge = fwidth(vMissing);
    float lift = edge > 1e-7 ? 1.0 - smoothstep(0.3 * pixelRatio, 0.3 * pixelRatio + 1.0, abs(vMissing - 0.5) / edge) : 0.0;
    colour = mix(colour, ink, 0.6 * lift);
    float hemSlope = fwidth(vHem);
    float rim = hemSlope > 1e-5 ? 1.0 - smoothstep(0.9 * pixelRatio, 0.9 * pixelRatio + 1.0, (1.0 - vHem) / hemSlope) : 0.0;
    colour = mix(colour, ink, 0.85 * rim);
    gl_FragColor = vec4(colour, 1.0);
  }
`;

/** A colour whose bytes reach the screen as they are written. */
export const screenColour = (css: string): Color => {
  const colour = new Color();
  colour.setStyle(css, '');
  return colour;
};

/** Paints cloth by value through a ramp, unlit, with isolines, and hatches what has no value. */
export function clothMaterial(ramp: DataTexture): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader,
    fragmentShader,
    side: DoubleSide,
    toneMapped: false,
    uniforms: {
      ramp: { value: ramp },
      low: { value: 0 },
      high: { value: 1 },
      isolineStep: { value: 1 },
      pixelRatio: { value: 1 },
      hatch: { value: HATCH },
      hatchesRound: { value: HATCHES_ROUND },
      axis: { value: new Vector2(0, 0) },
      below: { value: screenColour(OUTSIDE_COLOURS.below) },
      above: { value: screenColour(OUTSIDE_COLOURS.above) },
      blank: { value: screenColour(OUTSIDE_COLOURS.blank) },
      stroke: { value: screenColour(OUTSIDE_COLOURS.stroke) },
      ink: { value: screenColour(OUTSIDE_COLOURS.ink) },
    },
  });
}

const rimVertexShader = /* glsl */ `
  uniform float width;
  uniform vec2 size;
  void main() {
    vec4 place = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
    vec4 tip = projectionMatrix * modelViewMatrix * vec4(position + 0.001 * normal, 1.0);
    vec2 outward = (tip.xy / tip.w - place.xy / place.w) * size;
    float reach = length(outward);
    if (reach > 1e-6) place.xy += outward / reach / size * 2.0 * width * place.w;
    gl_Position = place;
  }
`;

const rimFragmentShader = /* glsl */ `
  uniform vec3 ink;
  void main() {
    gl_FragColor = vec4(ink, 1.0);
  }
`;

/** A thin line round a mesh: its far side, drawn a little larger on the screen. */
export function rimMaterial(colour: string): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: rimVertexShader,
    fragmentShader: rimFragmentShader,
    side: BackSide,
    toneMapped: false,
    uniforms: {
      width: { value: 1 },
      size: { value: new Vector2(1, 1) },
      ink: { value: screenColour(colour) },
    },
  });
}
