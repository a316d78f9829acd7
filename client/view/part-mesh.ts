/**
 * The part on the stage: its faces in one mesh with a colour for each vertex, its edges, and where it is cut open the
 * hatched face of the cut. Materials are made once, since a new one costs a shader; shapes come and go.
 */
import {
  AlwaysStencilFunc,
  BackSide,
  BufferAttribute,
  BufferGeometry,
  Color,
  DecrementWrapStencilOp,
  DoubleSide,
  FrontSide,
  Group,
  IncrementWrapStencilOp,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  NotEqualStencilFunc,
  Plane,
  PlaneGeometry,
  ReplaceStencilOp,
  ShaderMaterial,
  type Side,
  Vector3,
  type WebGLRenderer,
} from 'three';
import { type Arrays, surfaceOfVertices } from './decode';
import { type Bounds, middleOf } from './orbit';
import type { CutPlane } from './section';
import type { Colours } from './theme';

export class PartMesh {
  readonly group = new Group();
  /** Both sides of every face, for what is touched; never drawn. */
  readonly touched = new Mesh<BufferGeometry, MeshBasicMaterial>(
    new BufferGeometry(),
    new MeshBasicMaterial({ side: DoubleSide }),
  );
  readonly #plane = new Plane(new Vector3(1, 0, 0), 0);
  readonly #faces = new Mesh(
    new BufferGeometry(),
    new MeshLambertMaterial({
      vertexColors: true,
      side: FrontSide,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    }),
  );
  readonly #edges = new LineSegments(new BufferGeometry(), new LineBasicMaterial());
  // Behind each pixel of the cut there is one more inner side than outer sides: they are counted in the stencil.
  readonly #inner = new Mesh(this.#faces.geometry, counting(BackSide));
  readonly #outer = new Mesh(this.#faces.geometry, counting(FrontSide));
  readonly #cap = new Mesh(new PlaneGeometry(1, 1), hatched());
  #vertexSurface: Uint32Array = new Uint32Array();
  #bounds: Bounds | undefined;

  constructor() {
    this.#inner.renderOrder = 1;
    this.#outer.renderOrder = 1;
    this.#cap.renderOrder = 2;
    this.#faces.renderOrder = 3;
    this.#edges.renderOrder = 4;
    this.#cap.onAfterRender = (renderer) => (renderer as WebGLRenderer).clearStencil();
    this.group.add(this.#inner, this.#outer, this.#cap, this.#faces, this.#edges);
    for (const m of [this.#inner, this.#outer, this.#cap, this.#faces, this.#edges]) m.frustumCulled = false;
    this.cut(undefined, 1);
  }

  show(arrays: Arrays, bounds: Bounds | undefined): void {
    this.#vertexSurface = surfaceOfVertices(arrays);
    this.#bounds = bounds;
    const faces = new BufferGeometry();
    faces.setAttribute('position', new BufferAttribute(arrays.positions, 3));
    faces.setAttribute('normal', new BufferAttribute(arrays.normals, 3));
    faces.setAttribute('color', new BufferAttribute(new Float32Array(arrays.positions.length), 3));
    faces.setIndex(new BufferAttribute(arrays.triangles, 1));
    this.#faces.geometry.dispose();
    for (const m of [this.#faces, this.#inner, this.#outer, this.touched]) m.geometry = faces;
    const edges = new BufferGeometry();
    edges.setAttribute('position', new BufferAttribute(arrays.edges, 3));
    this.#edges.geometry.dispose();
    this.#edges.geometry = edges;
  }

  paint({ part, chosen, edge, cut }: Colours, lit: ReadonlySet<number>, ratio: number): void {
    const attribute = this.#faces.geometry.getAttribute('color') as BufferAttribute | undefined;
    if (!attribute) return;
    const colours = attribute.array as Float32Array;
    this.#vertexSurface.forEach((surface, i) => {
      (lit.has(surface) ? chosen : part).toArray(colours, 3 * i);
    });
    attribute.needsUpdate = true;
    this.#edges.material.color.copy(edge);
    const { uniforms } = this.#cap.material;
    uniforms.ink!.value = edge;
    uniforms.ground!.value = cut;
    uniforms.pitch!.value = 8 * ratio;
  }

  /** Cuts the part open, or puts it together again. `side` as `keptSide` tells. */
  cut(plane: CutPlane | undefined, side: 1 | -1): void {
    const planes = plane ? [this.#plane] : [];
    for (const m of [this.#faces, this.#edges, this.#inner, this.#outer]) m.material.clippingPlanes = planes;
    for (const m of [this.#inner, this.#outer, this.#cap]) m.visible = plane !== undefined;
    if (!plane) return;
    this.#plane.normal.set(0, 0, 0).setComponent(plane.axis, side);
    this.#plane.constant = -side * plane.atMm;
    if (!this.#bounds) return;
    const { min, max } = this.#bounds;
    const size = 2 * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
    this.#cap.scale.set(size, size, 1);
    this.#cap.position.set(...middleOf(this.#bounds)).setComponent(plane.axis, plane.atMm);
    // The cap is seen from the side that was taken away.
    this.#cap.lookAt(this.#cap.position.clone().addScaledVector(this.#plane.normal, -1));
  }
}

function counting(side: Side): MeshBasicMaterial {
  const op = side === BackSide ? IncrementWrapStencilOp : DecrementWrapStencilOp;
  return new MeshBasicMaterial({
    side,
    depthWrite: false,
    depthTest: false,
    colorWrite: false,
    stencilWrite: true,
    stencilFunc: AlwaysStencilFunc,
    stencilFail: op,
    stencilZFail: op,
    stencilZPass: op,
  });
}

/** The hatching of a cut face, at 45° as drawings have it (ISO 128-50). */
function hatched(): ShaderMaterial {
  return new ShaderMaterial({
    uniforms: { ink: { value: new Color() }, ground: { value: new Color() }, pitch: { value: 8 } },
    vertexShader: 'void main() { gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }',
    fragmentShader: `
      uniform vec3 ink;
      uniform vec3 ground;
      uniform float pitch;
      void main() {
        float along = mod(gl_FragCoord.x - gl_FragCoord.y, pitch);
        float line = 1.0 - smoothstep(0.06 * pitch, 0.16 * pitch, min(along, pitch - along));
        gl_FragColor = vec4(mix(ground, ink, line), 1.0);
        #include <colorspace_fragment>
      }`,
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: ReplaceStencilOp,
    stencilZFail: ReplaceStencilOp,
    stencilZPass: ReplaceStencilOp,
  });
}
