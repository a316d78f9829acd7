/**
 * The picture itself: the part under a light that goes with the eye, the stock as a ghost, what stands round the work, a
 * plane that cuts it open. Draws only when something changed. Knows no text and no lists.
 */
import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  DirectionalLight,
  type Intersection,
  LineBasicMaterial,
  LineSegments,
  OrthographicCamera,
  Raycaster,
  Scene as Stage,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { PictureCutter, PictureLumps, PicturePass, PictureWords } from '../../server/src/service/view/protocol';
import { type Arrays, boundsOf } from './decode';
import { edgesNear } from './edges-near';
import { Hatched } from './hatched';
import {
  axesOf,
  type Bounds,
  type Eye,
  extentOf,
  holding,
  otherWays,
  type Point,
  raised,
  refitted,
  together,
  wholeView,
  within,
} from './orbit';
import { PartMesh } from './part-mesh';
import { type CutPlane, isKept, keptSide } from './section';
import { aroundShapes, cutterBounds, cutterShapes, SeeThrough, stockShape } from './see-through';
import type { Colours } from './theme';

export interface Hit {
  readonly surface: number;
  readonly at: Point;
  /** The edge that was touched instead: which of the mesh's stretches. */
  readonly edge?: number;
}

/** The eye stands so far off; without perspective only the order of things hangs on it. */
const FAR_MM = 4000;

export class Scene {
  readonly canvas: HTMLCanvasElement;
  readonly #renderer: WebGLRenderer;
  readonly #stage = new Stage();
  readonly #camera = new OrthographicCamera();
  readonly #light = new DirectionalLight(0xffffff, 2.1);
  readonly #part = new PartMesh();
  readonly #ghost = new SeeThrough(0.14);
  readonly #around = new SeeThrough(0.16);
  readonly #cutter = new SeeThrough(0.62);
  readonly #holder = new SeeThrough(0.16);
  /** What of the tool is inside the work. */
  readonly #inside = new SeeThrough(0.2, true);
  readonly #ways = new LineSegments(new BufferGeometry(), new LineBasicMaterial());
  readonly #went = new Hatched('strokes');
  readonly #came = new Hatched('dots');
  #colours: Colours;
  #arrays: Arrays | undefined;
  #bounds: Bounds | undefined;
  /** Width over height of the picture as it was drawn last. */
  #drawnAs = 0;
  #aroundBounds: readonly Bounds[] = [];
  #lit: ReadonlySet<number> = new Set();
  #cut: CutPlane | undefined;
  #side: 1 | -1 = 1;
  #waiting = false;
  eye: Eye | undefined;
  /** Called after each drawing, for what is written over the picture. */
  onDrawn: () => void = () => {};

  constructor(canvas: HTMLCanvasElement, colours: Colours) {
    this.canvas = canvas;
    this.#colours = colours;
    // Kept after drawing, so that a picture of the window shows it too.
    this.#renderer = new WebGLRenderer({ canvas, antialias: true, preserveDrawingBuffer: true, stencil: true });
    this.#renderer.localClippingEnabled = true;
    this.#ghost.group.visible = false;
    this.#stage.add(new AmbientLight(0xffffff, 1.1), this.#light, this.#light.target);
    this.#stage.add(this.#part.group, this.#ghost.group, this.#around.group, this.#cutter.group);
    this.#stage.add(this.#holder.group, this.#inside.group);
    this.#ways.renderOrder = 7;
    this.#ways.frustumCulled = false;
    this.#stage.add(this.#ways);
    this.#stage.add(this.#went.group, this.#came.group);
    canvas.addEventListener('webglcontextrestored', () => this.draw());
  }

  get triangles(): number {
    return (this.#arrays?.triangles.length ?? 0) / 3;
  }

  get arrays(): Arrays | undefined {
    return this.#arrays;
  }

  /** Of the part. */
  get bounds(): Bounds | undefined {
    return this.#bounds;
  }

  /** Of the part and what stands round it. */
  get everything(): Bounds | undefined {
    return this.#bounds && together([this.#bounds, ...this.#aroundBounds]);
  }

  /** Width over height of the picture. */
  get aspect(): number {
    return this.canvas.clientWidth / Math.max(1, this.canvas.clientHeight) || 1;
  }

  show(picture: PictureWords, arrays: Arrays): void {
    this.#arrays = arrays;
    this.#bounds = boundsOf(arrays);
    this.#part.show(arrays, this.#bounds);
    this.#ghost.show([stockShape(picture.stock)]);
    const setup = picture.moment ? picture.setups[picture.moment.setup] : undefined;
    const tools = setup?.passes?.flatMap((p) => (p.cutter ? [cutterBounds(p.cutter)] : [])) ?? [];
    const beside = this.#bounds ? together([this.#bounds, ...(setup?.around ?? [])])! : undefined;
    const room = beside && raised(beside, setup?.frame?.[2] ?? [0, 0, 1]);
    this.#aroundBounds = [...(setup?.around ?? []), ...(room ? tools.map((t) => within(t, room)) : [])];
    this.#around.show(aroundShapes(setup));
    if (!this.eye && this.#bounds) this.eye = wholeView(this.#bounds, this.aspect);
    this.#paint();
  }

  /** The tools that stand in the work, with where the pass goes. */
  cutters(cutters: readonly PictureCutter[], ways: PicturePass['ways'] = []): void {
    this.#cutter.show(cutterShapes(cutters, 'tool'));
    this.#holder.show(cutterShapes(cutters, 'holder'));
    this.#inside.show(cutterShapes(cutters, 'tool'));
    const points = ways.flatMap((way) => way.slice(1).flatMap((p, i) => [...way[i]!, ...p]));
    this.#ways.geometry.dispose();
    this.#ways.geometry = new BufferGeometry();
    this.#ways.geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
    this.draw();
  }

  /** Material that is only in the old part, and only in the new one. */
  differing(went: PictureLumps | undefined, came: PictureLumps | undefined): void {
    this.#went.show(went);
    this.#came.show(came);
    this.#paint();
  }

  light(surfaces: ReadonlySet<number>): void {
    this.#lit = surfaces;
    this.#paint();
  }

  set stock(shown: boolean) {
    this.#ghost.group.visible = shown;
    this.draw();
  }

  set cut(plane: CutPlane | undefined) {
    this.#cut = plane;
    this.draw();
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
    const { clientWidth, clientHeight } = this.canvas;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * x) / clientWidth - 1, 1 - (2 * y) / clientHeight), this.#camera);
    const hit = this.#first(ray);
    // The inner side of a face is met first where the ray went in through the cut.
    if (!hit?.face || hit.face.normal.dot(ray.ray.direction) > 0) return undefined;
    const surface = this.#part.surfaceAt(hit.faceIndex ?? -1);
    return surface === undefined ? undefined : { surface, at: hit.point.toArray() };
  }

  /** The edge within a few pixels of a place of the canvas that nothing hides, nearest first; else the face there. */
  pickEdge(x: number, y: number): Hit | undefined {
    const near = this.#arrays ? edgesNear(this.#arrays, (p) => this.project(p), { x, y }) : [];
    const found = near.find(({ at }) => !this.hides(at));
    if (!found) return this.pick(x, y);
    return { surface: this.#arrays!.edgeOf[2 * found.stretch]!, at: found.at, edge: found.stretch };
  }

  /** Faces that are left out. */
  set hidden(surfaces: ReadonlySet<number>) {
    this.#part.hide(surfaces);
    this.#paint();
  }

  /** The edge that was touched last. */
  set edge(stretch: number | undefined) {
    this.#part.markEdge(stretch);
    this.draw();
  }

  /** Brings a point of the part into sight: turned to where nothing of the part hides it, moved where it is out of the picture. */
  goTo(point: Point): void {
    if (!this.eye) return;
    const eye = this.eye;
    const seen = [eye, ...otherWays(eye)].find((way) => !this.hides(point, way)) ?? eye;
    this.look(holding(seen, point, this.aspect));
  }

  /** Where a point of the part is on the canvas, in CSS pixels. */
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

  /** Its window was made wider or narrower. */
  resized(): void {
    const boxes = [this.everything, this.#bounds].filter((box) => box !== undefined);
    if (this.eye && this.#drawnAs) this.eye = refitted(this.eye, boxes, this.#drawnAs, this.aspect);
    this.draw();
  }

  drawNow(): void {
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (!this.eye || w === 0 || h === 0) return;
    const ratio = Math.min(2, devicePixelRatio || 1);
    if (this.canvas.width !== Math.round(w * ratio) || this.canvas.height !== Math.round(h * ratio)) {
      this.#renderer.setPixelRatio(ratio);
      this.#renderer.setSize(w, h, false);
    }
    this.#drawnAs = this.aspect;
    this.#aim(this.eye);
    if (this.#cut) this.#side = keptSide(this.#cut, this.eye, this.#side);
    this.#part.cut(this.#cut, this.#side);
    this.#renderer.setClearColor(this.#colours.background);
    this.#renderer.render(this.#stage, this.#camera);
    this.onDrawn();
  }

  #aim(eye: Eye): void {
    const { back, right, up } = axesOf(eye);
    const { across, high } = extentOf(eye, this.aspect);
    const { at } = eye;
    Object.assign(this.#camera, { left: -across, right: across, top: high, bottom: -high, near: 1, far: 2 * FAR_MM });
    this.#camera.up.set(...up);
    this.#camera.position.set(at[0] + back[0] * FAR_MM, at[1] + back[1] * FAR_MM, at[2] + back[2] * FAR_MM);
    this.#camera.lookAt(...at);
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
    // The light stands a little above and left of the eye.
    const from = (i: 0 | 1 | 2) => at[i] + back[i] * 500 + up[i] * 260 - right[i] * 180;
    this.#light.position.set(from(0), from(1), from(2));
    this.#light.target.position.set(...at);
    this.#light.target.updateMatrixWorld();
  }

  #first(ray: Raycaster): Intersection | undefined {
    const hits = ray.intersectObject(this.#part.touched, false);
    const cut = this.#cut;
    return cut ? hits.find((h) => isKept(cut, this.#side, h.point.toArray())) : hits[0];
  }

  /** Whether the part stands between the eye and a point; a point that lies on it does not hide itself. */
  hides(point: Point, eye = this.eye): boolean {
    if (!eye) return false;
    const back = new Vector3(...axesOf(eye).back);
    const from = new Vector3(...point).addScaledVector(back, FAR_MM / 2);
    const hit = this.#first(new Raycaster(from, back.clone().negate()));
    return hit !== undefined && hit.distance < FAR_MM / 2 - 0.05;
  }

  #paint(): void {
    this.#part.paint(this.#colours, this.#lit, Math.min(2, devicePixelRatio || 1));
    this.#ghost.paint(this.#colours.ghost);
    this.#around.paint(this.#colours.around);
    this.#cutter.paint(this.#colours.chosen);
    this.#holder.paint(this.#colours.chosen);
    this.#inside.paint(this.#colours.chosen);
    this.#ways.material.color.copy(this.#colours.chosen);
    const ratio = Math.min(2, devicePixelRatio || 1);
    this.#went.paint(this.#colours.error, ratio);
    this.#came.paint(this.#colours.chosen, ratio);
    this.draw();
  }
}
