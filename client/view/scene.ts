/**
 * The picture itself: the part's faces and edges under a light that goes with the eye, the stock as a ghost, what stands
 * round the work, a plane that cuts it open. Draws only when something changed. Knows no text and no lists.
 */
import {
  AmbientLight,
  BackSide,
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  CylinderGeometry,
  DirectionalLight,
  EdgesGeometry,
  FrontSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  OrthographicCamera,
  Plane,
  Raycaster,
  Scene as Stage,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { PartPicture, PictureSetup } from '../../server/src/service/view/protocol';
import { type Arrays, arraysOf, boundsOf, surfaceOfVertices } from './decode';
import { axesOf, type Bounds, type Eye, type Point, wholeView } from './orbit';
import type { Colours } from './theme';

export interface Hit {
  readonly surface: number;
  readonly at: Point;
}

export interface CutPlane {
  readonly axis: 0 | 1 | 2;
  /** Along the axis, mm: what lies between it and the eye is taken away. */
  readonly atMm: number;
}

export class Scene {
  readonly canvas: HTMLCanvasElement;
  readonly #renderer: WebGLRenderer;
  readonly #stage = new Stage();
  readonly #camera = new OrthographicCamera();
  readonly #light = new DirectionalLight(0xffffff, 2.1);
  readonly #part = new Group();
  readonly #ghost = new Group();
  readonly #around = new Group();
  readonly #plane = new Plane(new Vector3(1, 0, 0), 0);
  #colours: Colours;
  #arrays: Arrays | undefined;
  #vertexSurface: Uint32Array = new Uint32Array();
  #faces: Mesh<BufferGeometry, MeshLambertMaterial> | undefined;
  #lit: ReadonlySet<number> = new Set();
  #cut: CutPlane | undefined;
  #showStock = false;
  #waiting = false;
  eye: Eye | undefined;
  /** Called after each drawing, for what is written over the picture. */
  onDrawn: () => void = () => {};

  constructor(canvas: HTMLCanvasElement, colours: Colours) {
    this.canvas = canvas;
    this.#colours = colours;
    // Kept after drawing, so that a picture of the window shows it too.
    this.#renderer = new WebGLRenderer({ canvas, antialias: true, preserveDrawingBuffer: true, stencil: false });
    this.#renderer.localClippingEnabled = true;
    this.#stage.add(
      new AmbientLight(0xffffff, 1.1),
      this.#light,
      this.#light.target,
      this.#part,
      this.#ghost,
      this.#around,
    );
  }

  get triangles(): number {
    return (this.#arrays?.triangles.length ?? 0) / 3;
  }

  get bounds(): Bounds | undefined {
    return this.#arrays && boundsOf(this.#arrays);
  }

  show(picture: PartPicture): void {
    const arrays = arraysOf(picture.mesh);
    this.#arrays = arrays;
    this.#vertexSurface = surfaceOfVertices(arrays);
    empty(this.#part);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(arrays.positions, 3));
    geometry.setAttribute('normal', new BufferAttribute(arrays.normals, 3));
    geometry.setAttribute('color', new BufferAttribute(new Float32Array(arrays.positions.length), 3));
    geometry.setIndex(new BufferAttribute(arrays.triangles, 1));
    this.#faces = new Mesh(
      geometry,
      new MeshLambertMaterial({
        vertexColors: true,
        side: FrontSide,
        polygonOffset: true,
        polygonOffsetFactor: 1,
        polygonOffsetUnits: 1,
      }),
    );
    // Where the part is cut open one looks at the inner side of its far faces: they stand for the cut, in one flat colour.
    const inner = new Mesh(geometry, new MeshBasicMaterial({ side: BackSide }));
    const lines = new BufferGeometry();
    lines.setAttribute('position', new BufferAttribute(arrays.edges, 3));
    this.#part.add(inner, this.#faces, new LineSegments(lines, new LineBasicMaterial()));
    this.#showGhost(picture);
    const setup = picture.moment ? picture.setups[picture.moment.setup] : undefined;
    this.#showAround(setup);
    const bounds = boundsOf(arrays);
    if (!this.eye && bounds) this.eye = wholeView(bounds);
    this.#paint();
  }

  light(surfaces: ReadonlySet<number>): void {
    this.#lit = surfaces;
    this.#paint();
  }

  set stock(shown: boolean) {
    this.#showStock = shown;
    this.#ghost.visible = shown;
    this.draw();
  }

  set cut(plane: CutPlane | undefined) {
    this.#cut = plane;
    this.#paint();
  }

  set colours(colours: Colours) {
    this.#colours = colours;
    this.#paint();
  }

  look(eye: Eye): void {
    this.eye = eye;
    this.draw();
  }

  /** What the eye meets first at a place of the canvas, in CSS pixels from its corner. */
  pick(x: number, y: number): Hit | undefined {
    const faces = this.#faces;
    if (!faces || !this.#arrays) return undefined;
    const { clientWidth, clientHeight } = this.canvas;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * x) / clientWidth - 1, 1 - (2 * y) / clientHeight), this.#camera);
    const cut = this.#cut;
    for (const hit of ray.intersectObject(faces, false)) {
      if (cut && (hit.point.getComponent(cut.axis) - cut.atMm) * this.#towardsEye(cut.axis) > 0) continue;
      const surface = this.#arrays.surfaceOf[hit.faceIndex ?? -1];
      if (surface !== undefined) return { surface, at: [hit.point.x, hit.point.y, hit.point.z] };
    }
    return undefined;
  }

  /** Where a point of the part is on the canvas, in CSS pixels; `behind` where the part itself hides it is not looked at. */
  project(p: Point): { readonly x: number; readonly y: number } {
    const v = new Vector3(...p).project(this.#camera);
    return { x: ((v.x + 1) / 2) * this.canvas.clientWidth, y: ((1 - v.y) / 2) * this.canvas.clientHeight };
  }

  draw(): void {
    if (this.#waiting) return;
    this.#waiting = true;
    requestAnimationFrame(() => {
      this.#waiting = false;
      this.drawNow();
    });
  }

  drawNow(): void {
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (!this.eye || w === 0 || h === 0) return;
    const ratio = Math.min(2, devicePixelRatio || 1);
    if (this.canvas.width !== Math.round(w * ratio) || this.canvas.height !== Math.round(h * ratio)) {
      this.#renderer.setPixelRatio(ratio);
      this.#renderer.setSize(w, h, false);
    }
    const { back, up } = axesOf(this.eye);
    const { at } = this.eye;
    // What is to be seen fits the shorter side of the canvas.
    const reachMm = this.eye.reachMm * Math.max(1, h / w);
    const far = 4000;
    Object.assign(this.#camera, {
      left: (-reachMm * w) / h,
      right: (reachMm * w) / h,
      top: reachMm,
      bottom: -reachMm,
      near: 1,
      far: 2 * far,
    });
    this.#camera.up.set(...up);
    this.#camera.position.set(at[0] + back[0] * far, at[1] + back[1] * far, at[2] + back[2] * far);
    this.#camera.lookAt(...at);
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
    // The light stands a little above and left of the eye.
    const { right } = axesOf(this.eye);
    this.#light.position.set(
      ...([0, 1, 2].map((i) => at[i]! + back[i]! * 500 + up[i]! * 260 - right[i]! * 180) as [number, number, number]),
    );
    this.#light.target.position.set(...at);
    this.#light.target.updateMatrixWorld();
    if (this.#cut) {
      const side = this.#towardsEye(this.#cut.axis);
      this.#plane.normal.set(0, 0, 0).setComponent(this.#cut.axis, -side);
      this.#plane.constant = side * this.#cut.atMm;
    }
    this.#renderer.setClearColor(this.#colours.background);
    this.#renderer.render(this.#stage, this.#camera);
    this.onDrawn();
  }

  /** On which side of a cut the eye stands: that half is taken away. */
  #towardsEye(axis: 0 | 1 | 2): 1 | -1 {
    return this.eye && axesOf(this.eye).back[axis] < 0 ? -1 : 1;
  }

  #paint(): void {
    const faces = this.#faces;
    if (!faces) return;
    const { part, chosen, edge, cut, ghost, around } = this.#colours;
    const attribute = faces.geometry.getAttribute('color') as BufferAttribute;
    const colours = attribute.array as Float32Array;
    for (let i = 0; i < this.#vertexSurface.length; i++) {
      const c = this.#lit.has(this.#vertexSurface[i]!) ? chosen : part;
      colours[3 * i] = c.r;
      colours[3 * i + 1] = c.g;
      colours[3 * i + 2] = c.b;
    }
    attribute.needsUpdate = true;
    const planes = this.#cut ? [this.#plane] : [];
    this.#part.traverse((o) => {
      const material = (o as Mesh).material as MeshBasicMaterial | undefined;
      if (!material) return;
      material.clippingPlanes = planes;
      if (o instanceof LineSegments) material.color.copy(edge);
      else if (material.side === BackSide) material.color.copy(cut);
    });
    for (const [group, colour] of [
      [this.#ghost, ghost],
      [this.#around, around],
    ] as const)
      group.traverse((o) => ((o as Mesh).material as MeshBasicMaterial | undefined)?.color.copy(colour));
    this.draw();
  }

  #showGhost({ stock }: PartPicture): void {
    empty(this.#ghost);
    this.#ghost.visible = this.#showStock;
    const size = [0, 1, 2].map((i) => stock.max[i]! - stock.min[i]!) as [number, number, number];
    const middle = [0, 1, 2].map((i) => (stock.max[i]! + stock.min[i]!) / 2) as [number, number, number];
    let shape: BufferGeometry;
    if (stock.radiusMm !== undefined && stock.axis !== undefined) {
      shape = new CylinderGeometry(stock.radiusMm, stock.radiusMm, size[stock.axis], 64);
      if (stock.axis === 0) shape.rotateZ(Math.PI / 2);
      if (stock.axis === 2) shape.rotateX(Math.PI / 2);
    } else shape = new BoxGeometry(...size);
    shape.translate(...middle);
    this.#ghost.add(
      new Mesh(shape, new MeshBasicMaterial({ transparent: true, opacity: 0.14, depthWrite: false })),
      new LineSegments(new EdgesGeometry(shape, 30), new LineBasicMaterial()),
    );
  }

  #showAround(setup: PictureSetup | undefined): void {
    empty(this.#around);
    for (const { min, max } of setup?.around ?? []) {
      const shape = new BoxGeometry(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
      shape.translate((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2);
      this.#around.add(
        new Mesh(shape, new MeshBasicMaterial({ transparent: true, opacity: 0.22, depthWrite: false })),
        new LineSegments(new EdgesGeometry(shape), new LineBasicMaterial()),
      );
    }
  }
}

/** Takes everything out of a group and gives its memory back. */
function empty(group: Group): void {
  group.traverse((o) => {
    const { geometry, material } = o as Partial<Mesh>;
    geometry?.dispose();
    for (const m of Array.isArray(material) ? material : material ? [material] : []) m.dispose();
  });
  group.clear();
}
