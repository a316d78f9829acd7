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
  GreaterDepth,
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
  /** What is lit, where material hides it. */
  readonly #through = new Mesh(
    new BufferGeometry(),
    new MeshBasicMaterial({
      transparent: true,
      opacity: 0.35,
      depthFunc: GreaterDepth,
      depthWrite: false,
      side: DoubleSide,
    }),
  );
  readonly #edge = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ depthTest: false }));
  #arrays: Arrays | undefined;
  #hidden: ReadonlySet<number> = new Set();
  readonly #cap = new Mesh(new PlaneGeometry(1, 1), hatched());
  #vertexSurface: Uint32Array = new Uint32Array();
  #order: Uint32Array = new Uint32Array();
  #bounds: Bounds | undefined;

  constructor() {
    this.#inner.renderOrder = 1;
    this.#outer.renderOrder = 1;
    this.#cap.renderOrder = 2;
    this.#faces.renderOrder = 3;
    this.#edges.renderOrder = 4;
    this.#cap.onAfterRender = (renderer) => (renderer as WebGLRenderer).clearStencil();
    this.#through.renderOrder = 5;
    this.#edge.renderOrder = 8;
    const all = [this.#inner, this.#outer, this.#cap, this.#faces, this.#edges, this.#through, this.#edge];
    this.group.add(...all);
    for (const m of all) m.frustumCulled = false;
    this.cut(undefined, 1);
  }

  show(arrays: Arrays, bounds: Bounds | undefined): void {
    this.#vertexSurface = surfaceOfVertices(arrays);
    this.#bounds = bounds;
    this.#arrays = arrays;
    const faces = new BufferGeometry();
    faces.setAttribute('position', new BufferAttribute(arrays.positions, 3));
    faces.setAttribute('normal', new BufferAttribute(arrays.normals, 3));
    faces.setAttribute('color', new BufferAttribute(new Float32Array(arrays.positions.length), 3));
    this.#faces.geometry.dispose();
    for (const m of [this.#faces, this.#inner, this.#outer, this.touched]) m.geometry = faces;
    this.hide(this.#hidden);
  }

  /** Leaves these faces out; an edge goes with the last of its two. */
  hide(hidden: ReadonlySet<number>): void {
    this.#hidden = hidden;
    const arrays = this.#arrays;
    if (!arrays) return;
    const { triangles, surfaceOf, edges, edgeOf } = arrays;
    this.#order = surfaceOf;
    if (hidden.size === 0) {
      this.#faces.geometry.setIndex(new BufferAttribute(triangles, 1));
      putLines(this.#edges, edges);
      return;
    }
    const seen = [...surfaceOf.keys()].filter((t) => !hidden.has(surfaceOf[t]!));
    this.#order = Uint32Array.from(seen, (t) => surfaceOf[t]!);
    const index = new Uint32Array(3 * seen.length);
    seen.forEach((t, i) => {
      for (const k of [0, 1, 2]) index[3 * i + k] = triangles[3 * t + k]!;
    });
    this.#faces.geometry.setIndex(new BufferAttribute(index, 1));
    const left = [...Array(edgeOf.length / 2).keys()].filter(
      (i) => !(hidden.has(edgeOf[2 * i]!) && hidden.has(edgeOf[2 * i + 1]!)),
    );
    putLines(this.#edges, Float32Array.from(left.flatMap((i) => [...edges.subarray(6 * i, 6 * i + 6)])));
  }

  /** The surface of a triangle that is drawn. */
  surfaceAt(triangle: number): number | undefined {
    return this.#order[triangle];
  }

  /** Draws an edge that was touched: all stretches between the same two faces. */
  markEdge(stretch: number | undefined): void {
    const { edges, edgeOf } = this.#arrays ?? {};
    const own: number[] = [];
    if (stretch !== undefined && edges && edgeOf) {
      const [s, u] = [edgeOf[2 * stretch], edgeOf[2 * stretch + 1]];
      for (let i = 0; i < edgeOf.length / 2; i++)
        if (edgeOf[2 * i] === s && edgeOf[2 * i + 1] === u) own.push(...edges.subarray(6 * i, 6 * i + 6));
    }
    putLines(this.#edge, Float32Array.from(own));
  }

  paint({ part, chosen, edge, cut }: Colours, lit: ReadonlySet<number>, ratio: number): void {
    const attribute = this.#faces.geometry.getAttribute('color') as BufferAttribute | undefined;
    if (!attribute) return;
    const colours = attribute.array as Float32Array;
    this.#vertexSurface.forEach((surface, i) => {
      (lit.has(surface) ? chosen : part).toArray(colours, 3 * i);
    });
    attribute.needsUpdate = true;
    this.#light(lit);
    this.#through.material.color.copy(chosen);
    this.#edge.material.color.copy(chosen);
    this.#edges.material.color.copy(edge);
    const { uniforms } = this.#cap.material;
    uniforms.ink!.value = edge;
    uniforms.ground!.value = cut;
    uniforms.pitch!.value = 8 * ratio;
  }

  #light(lit: ReadonlySet<number>): void {
    const arrays = this.#arrays;
    if (!arrays) return;
    const { triangles, surfaceOf } = arrays;
    const index: number[] = [];
    if (lit.size > 0)
      surfaceOf.forEach((s, t) => {
        if (lit.has(s)) index.push(triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!);
      });
    const shape = new BufferGeometry();
    shape.setAttribute('position', this.#faces.geometry.getAttribute('position'));
    shape.setIndex(index);
    this.#through.geometry = shape;
    this.#through.visible = index.length > 0;
  }

  /** Cuts the part open, or puts it together again. `side` as `keptSide` tells. */
  cut(plane: CutPlane | undefined, side: 1 | -1): void {
    const planes = plane ? [this.#plane] : [];
    for (const m of [this.#faces, this.#edges, this.#inner, this.#outer, this.#through])
      m.material.clippingPlanes = planes;
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

function putLines(lines: LineSegments, points: Float32Array): void {
  lines.geometry.dispose();
  lines.geometry = new BufferGeometry();
  lines.geometry.setAttribute('position', new BufferAttribute(points, 3));
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
