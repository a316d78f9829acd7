/** Material that went or came, drawn over the part: each with a hatching of its own, so that no colour is needed to tell them apart. */
import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  ShaderMaterial,
} from 'three';
import type { PictureLumps } from '../../server/src/service/view/protocol';
import { bytesOf } from './decode';

/** Strokes that rise to the right, or a grid of dots. */
type Pattern = 'strokes' | 'dots';

const INK: Readonly<Record<Pattern, string>> = {
  strokes: `
    float along = mod(gl_FragCoord.x - gl_FragCoord.y, pitch);
    float ink = 1.0 - smoothstep(0.14 * pitch, 0.24 * pitch, min(along, pitch - along));`,
  dots: `
    vec2 cell = mod(gl_FragCoord.xy, vec2(0.8 * pitch)) - vec2(0.4 * pitch);
    float ink = 1.0 - smoothstep(0.18 * pitch, 0.26 * pitch, length(cell));`,
};

export class Hatched {
  readonly group = new Group();
  readonly #material: ShaderMaterial;
  /** Seen through the part: much of what changes lies inside it. */
  readonly #edges = new LineBasicMaterial({ transparent: true, opacity: 0.7, depthTest: false });

  constructor(pattern: Pattern) {
    this.#material = new ShaderMaterial({
      side: DoubleSide,
      transparent: true,
      polygonOffset: true,
      polygonOffsetFactor: -1,
      polygonOffsetUnits: -2,
      uniforms: { colour: { value: new Color() }, pitch: { value: 8 } },
      vertexShader: 'void main() { gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }',
      fragmentShader: `
        uniform vec3 colour;
        uniform float pitch;
        void main() {
          ${INK[pattern]}
          gl_FragColor = vec4(colour, mix(0.22, 0.95, ink));
          #include <colorspace_fragment>
        }`,
    });
  }

  show(lumps: PictureLumps | undefined): void {
    this.group.traverse((o) => (o as Partial<Mesh>).geometry?.dispose());
    this.group.clear();
    if (!lumps || lumps.triangles === '') return;
    const shape = new BufferGeometry();
    shape.setAttribute('position', new BufferAttribute(new Float32Array(bytesOf(lumps.points)), 3));
    shape.setIndex(new BufferAttribute(new Uint32Array(bytesOf(lumps.triangles)), 1));
    const faces = new Mesh(shape, this.#material);
    const edges = new LineSegments(new EdgesGeometry(shape, 30), this.#edges);
    faces.renderOrder = 7;
    edges.renderOrder = 8;
    this.group.add(faces, edges);
  }

  paint(colour: Color, ratio: number): void {
    this.#material.uniforms.colour!.value = colour;
    this.#material.uniforms.pitch!.value = 9 * ratio;
    this.#edges.color.copy(colour);
  }
}
