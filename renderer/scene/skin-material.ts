import { ShaderMaterial } from 'three';
import { screenColour } from './cloth-material.ts';

const vertexShader = /* glsl */ `
  varying vec3 vNormal;
  varying vec3 vView;
  void main() {
    vec4 seen = modelViewMatrix * vec4(position, 1.0);
    vNormal = normalMatrix * normal;
    vView = -seen.xyz;
    gl_Position = projectionMatrix * seen;
  }
`;

// Light that stands with the camera, up and to the left, wrapped round as through a north window; grey without a hue of
// its own, so that colour belongs to the map.
const fragmentShader = /* glsl */ `
  uniform vec3 lit;
  uniform vec3 shade;
  varying vec3 vNormal;
  varying vec3 vView;
  void main() {
    vec3 normal = normalize(vNormal);
    vec3 view = normalize(vView);
    float key = dot(normal, normalize(vec3(-0.45, 0.65, 0.75))) * 0.5 + 0.5;
    float fill = dot(normal, normalize(vec3(0.8, 0.1, 0.4))) * 0.5 + 0.5;
    float facing = clamp(dot(normal, view), 0.0, 1.0);
    float light = 0.74 * key * key + 0.22 * fill + 0.1 * facing;
    vec3 colour = mix(shade, lit, smoothstep(0.0, 1.0, light));
    colour *= mix(0.86, 1.0, smoothstep(0.0, 0.45, facing));
    gl_FragColor = vec4(colour, 1.0);
  }
`;

/** Grey of the bare form where light falls and where it does not. */
const SKIN_TONE = { lit: '#d8d5cf', shade: '#6f6d6a' } as const;

/** Lit, with one tone where light falls and another in the shade; the bare form's grey if left out. */
export function skinMaterial(tone: { lit: string; shade: string } = SKIN_TONE): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader,
    fragmentShader,
    toneMapped: false,
    uniforms: {
      lit: { value: screenColour(tone.lit) },
      shade: { value: screenColour(tone.shade) },
    },
  });
}
