// The tank in 3D, rendered only when something changed. It knows nothing of the page but the element it
// draws in.

import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  CapsuleGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  type Material,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  PerspectiveCamera,
  Plane,
  Raycaster,
  Scene,
  SphereGeometry,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import type { Model, Point, Solid } from "../api/types";
import { isSoftwareRendered } from "./software";

export interface Look {
  /** How far the panels are pulled apart, 0 to 1. */
  explode: number;
  /** A clipping plane: its axis and its position along it from 0 to 1. */
  cut: { axis: 0 | 1 | 2; at: number } | null;
  colours: ReadonlyMap<string, string>;
  /** Vertex colours of bulged panels. */
  tints: ReadonlyMap<string, readonly string[]>;
  lit: readonly string[];
  seams: readonly { from: Point; to: Point; colour: string }[];
  /** Bulge drawn this many times larger; 0 for flat panels. */
  bulge: number;
  /** A marked point, on the tank without bulge. */
  spot: Point | null;
  liquid: { normal: Point; offset_m: number; surfaces: readonly Point[][]; cavity: Solid } | null;
  faint: boolean;
  /** Marks of the panels that are shown; without it all are. */
  shown?: ReadonlySet<string>;
  capsules?: readonly { from: Point; to: Point; radius: number; colour: string }[];
  /** Turned over about the x axis. */
  isTurned?: boolean;
}

export interface Label {
  text: string;
  at: Point;
  mark: string;
}

export class TankScene {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(35, 1, 0.01, 200);
  private readonly controls: OrbitControls;
  private readonly content = new Group();
  private centre = new Vector3();
  private radius = 1;
  private clips: Plane[] = [];
  private isFrameRequested = false;
  private framed = "";
  private size = "";
  /** Runs after each frame, when labels can be placed. */
  onDraw: (() => void) | null = null;

  constructor(private readonly place: HTMLElement) {
    this.renderer = new WebGLRenderer({ antialias: !isSoftwareRendered(), alpha: true });
    this.renderer.localClippingEnabled = true;
    this.camera.up.set(0, 0, 1);
    this.scene.add(this.content, new AmbientLight(0xffffff, 1.25));
    const lamp = new DirectionalLight(0xffffff, 1.7);
    lamp.position.set(-0.5, -0.9, 1.6);
    this.scene.add(lamp);
    place.append(this.renderer.domElement);
    this.controls = new OrbitControls(this.camera, this.renderer.domElement);
    this.controls.addEventListener("change", this.requestFrame);
    new ResizeObserver(this.requestFrame).observe(place);
  }

  dispose(): void {
    this.controls.dispose();
    this.clear();
    this.renderer.dispose();
    this.renderer.domElement.remove();
  }

  /** Rebuilds everything that is shown. */
  show(model: Model, look: Look): void {
    this.clear();
    this.measure(model);
    const clips = look.cut ? [this.cutPlane(model, look.cut)] : [];
    this.clips = clips;
    for (const panel of model.panels) {
      if (look.shown && !look.shown.has(panel.mark)) continue;
      const bulged = look.bulge > 0 ? model.bulge?.panels.find((one) => one.mark === panel.mark) : undefined;
      const solid = bulged ? displaced(bulged, look.bulge) : panel.solid;
      const group = this.solid(solid, {
        colour: look.colours.get(panel.mark) ?? "#d9d5c7",
        tints: bulged && look.tints.get(panel.mark),
        opacity: look.faint ? 0.28 : 1,
        clips,
        line: look.lit.includes(panel.mark) ? "#b3261e" : "#2a3338",
      });
      // A transparent panel hides no label.
      group.userData.mark = look.faint ? undefined : panel.mark;
      group.position.copy(this.explodeOffset(panel.solid).multiplyScalar(look.explode));
      this.content.add(group);
    }
    for (const seam of look.seams) this.content.add(tube(seam.from, seam.to, this.radius / 90, seam.colour));
    for (const one of look.capsules ?? []) this.content.add(capsule(one.from, one.to, one.radius, one.colour));
    if (look.spot) this.content.add(marker(look.bulge > 0 ? moved(look.spot, model, look.bulge) : look.spot, this.radius / 12));
    if (look.liquid) this.fill(look.liquid, clips);
    this.content.rotation.x = look.isTurned ? Math.PI : 0;
    this.content.position.set(0, look.isTurned ? 2 * this.centre.y : 0, look.isTurned ? 2 * this.centre.z : 0);
    if (this.framed !== frame(model)) {
      this.framed = frame(model);
      this.lookFrom([-0.9, -1.5, 0.9]);
    }
    this.requestFrame();
  }

  lookFrom(way: Point): void {
    const eye = new Vector3(...way).normalize().multiplyScalar(this.radius * 3.4);
    this.camera.position.copy(this.centre).add(eye);
    this.controls.target.copy(this.centre);
    this.controls.update();
    this.requestFrame();
  }

  /** Looks at a point of the tank from outside, a little from above. */
  lookAt(spot: Point): void {
    const way = new Vector3(...spot).sub(this.centre).normalize();
    this.lookFrom([way.x, way.y, Math.max(way.z, -0.4) + 0.35]);
  }

  /** Orbits by keys: angles in radians, and a factor of the distance. */
  turn(around: number, over: number, nearer: number): void {
    const eye = this.camera.position.clone().sub(this.controls.target);
    const flat = Math.hypot(eye.x, eye.y);
    const rise = Math.max(-1.5, Math.min(1.5, Math.atan2(eye.z, flat) + over));
    const head = Math.atan2(eye.y, eye.x) + around;
    const far = eye.length() * nearer;
    eye.set(far * Math.cos(rise) * Math.cos(head), far * Math.cos(rise) * Math.sin(head), far * Math.sin(rise));
    this.camera.position.copy(this.controls.target).add(eye);
    this.controls.update();
    this.requestFrame();
  }

  /** The pixel of the element at which a point of the tank is drawn. */
  toScreen(at: Point): [number, number] {
    const spot = this.turned(at).project(this.camera);
    return [((spot.x + 1) / 2) * this.place.clientWidth, ((1 - spot.y) / 2) * this.place.clientHeight];
  }

  /** Where a point of the tank is, turned over or not. */
  private turned(at: Point): Vector3 {
    return this.content.localToWorld(new Vector3(...at));
  }

  /** The centre of a panel in the exploded view. */
  middle(solid: Solid, explode: number): Point {
    const mid = middleOf(solid).add(this.explodeOffset(solid).multiplyScalar(explode));
    return [mid.x, mid.y, mid.z];
  }

  /** Whether a point is clipped. */
  isCutAway(at: Point): boolean {
    return this.clips.some((clip) => clip.distanceToPoint(new Vector3(...at)) < 0);
  }

  /** Whether another panel hides a point of this one. */
  isBehind(at: Point, mark: string): boolean {
    const way = this.turned(at).sub(this.camera.position);
    const ray = new Raycaster(this.camera.position, way.clone().normalize(), 0, way.length() * 0.999);
    const panels = this.content.children.filter((thing) => thing.userData.mark !== undefined && thing.userData.mark !== mark);
    return ray.intersectObjects(panels.map((group) => group.children[0]!), false).some(({ point }) => !this.isCutAway(point.toArray()));
  }

  /** Renders a frame; the benchmark counts these. */
  draw = (): void => {
    this.isFrameRequested = false;
    const { clientWidth: width, clientHeight: height } = this.place;
    if (width === 0 || height === 0) return;
    this.fit(width, height);
    this.renderer.render(this.scene, this.camera);
    this.onDraw?.();
  };

  /** Setting the size allocates a new frame buffer, so it is done only on a change. */
  private fit(width: number, height: number): void {
    const size = `${width} ${height} ${devicePixelRatio}`;
    if (size === this.size) return;
    this.size = size;
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
  }

  private readonly requestFrame = (): void => {
    if (this.isFrameRequested) return;
    this.isFrameRequested = true;
    requestAnimationFrame(this.draw);
  };

  private clear(): void {
    this.content.traverse((thing) => {
      if (thing instanceof Mesh || thing instanceof LineSegments) {
        const { geometry, material } = thing as Mesh<BufferGeometry, Material>;
        geometry.dispose();
        material.dispose();
      }
    });
    this.content.clear();
  }

  private measure(model: Model): void {
    const all = model.panels.flatMap((panel) => panel.solid.points);
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = low.clone().negate();
    for (const point of all) {
      low.min(new Vector3(...point));
      high.max(new Vector3(...point));
    }
    this.centre = low.clone().add(high).multiplyScalar(0.5);
    this.radius = Math.max(high.distanceTo(low) / 2, 0.01);
  }

  private cutPlane(model: Model, { axis, at }: NonNullable<Look["cut"]>): Plane {
    const along = model.panels.flatMap((panel) => panel.solid.points.map((point) => point[axis]));
    const low = along.reduce((a, b) => Math.min(a, b), Infinity);
    const high = along.reduce((a, b) => Math.max(a, b), -Infinity);
    const way = new Vector3();
    way.setComponent(axis, axis === 2 ? -1 : 1);
    const place = low + (high - low) * at;
    return new Plane(way, axis === 2 ? place : -place);
  }

  private explodeOffset(solid: Solid): Vector3 {
    return middleOf(solid).sub(this.centre).multiplyScalar(0.9);
  }

  private solid(solid: Solid, how: { colour: string; tints?: readonly string[]; opacity: number; clips: Plane[]; line: string }): Group {
    const group = new Group();
    const faces = new MeshLambertMaterial({
      color: how.tints ? "#ffffff" : how.colour,
      vertexColors: how.tints !== undefined,
      side: DoubleSide,
      flatShading: true,
      transparent: how.opacity < 1,
      opacity: how.opacity,
      depthWrite: how.opacity === 1,
      clippingPlanes: how.clips,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
    const shape = geometry(solid.points, solid.triangles.flat());
    if (how.tints) shape.setAttribute("color", new BufferAttribute(new Float32Array(how.tints.flatMap((tint) => new Color(tint).toArray())), 3));
    group.add(new Mesh(shape, faces));
    const lines = new LineBasicMaterial({ color: how.line, clippingPlanes: how.clips });
    group.add(new LineSegments(geometry(solid.points, solid.edges.flat()), lines));
    return group;
  }

  private fill(liquid: NonNullable<Look["liquid"]>, clips: Plane[]): void {
    const surface = new Plane(new Vector3(...liquid.normal).negate(), liquid.offset_m);
    const material = (over: Plane[]) =>
      new MeshLambertMaterial({ color: "#3d8fc4", transparent: true, opacity: 0.45, side: DoubleSide, depthWrite: false, clippingPlanes: over });
    const { points, triangles } = liquid.cavity;
    this.content.add(new Mesh(geometry(points, triangles.flat()), material([surface, ...clips])));
    for (const outline of liquid.surfaces) {
      const fan = outline.slice(2).flatMap((_, index) => [0, index + 1, index + 2]);
      this.content.add(new Mesh(geometry(outline, fan), material(clips)));
    }
  }
}

function frame(model: Model): string {
  return model.panels.map((panel) => panel.solid.points[0]!.map((value) => value.toFixed(1)).join()).join(" ");
}

function geometry(points: readonly Point[], index: number[]): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute("position", new BufferAttribute(new Float32Array(points.flat()), 3));
  made.setIndex(index);
  made.computeVertexNormals();
  return made;
}

function middleOf(solid: Solid): Vector3 {
  const sum = new Vector3();
  for (const point of solid.points) sum.add(new Vector3(...point));
  return sum.divideScalar(Math.max(solid.points.length, 1));
}

function displaced(bulged: { points: Point[]; triangles: [number, number, number][]; displacement_m: Point[] }, by: number): Solid {
  const points = bulged.points.map((point, index): Point => {
    const move = bulged.displacement_m[index]!;
    return [point[0] + by * move[0], point[1] + by * move[1], point[2] + by * move[2]];
  });
  return { points, triangles: bulged.triangles, edges: [] };
}

/** A point moved with the nearest vertex of the bulged panels. */
function moved(spot: Point, model: Model, by: number): Point {
  let [near, best] = [spot, Number.POSITIVE_INFINITY];
  for (const { points, displacement_m } of model.bulge?.panels ?? []) {
    points.forEach((point, index) => {
      const far = Math.hypot(point[0] - spot[0], point[1] - spot[1], point[2] - spot[2]);
      if (far >= best) return;
      const move = displacement_m[index]!;
      [near, best] = [[point[0] + by * move[0], point[1] + by * move[1], point[2] + by * move[2]], far];
    });
  }
  return near;
}

/** A marker that is visible from every side and through panels. */
function marker(at: Point, radius: number): Mesh {
  const mark = new Mesh(new SphereGeometry(radius, 16, 12), new MeshBasicMaterial({ color: "#b3261e", depthTest: false, transparent: true, opacity: 0.5 }));
  mark.position.set(...at);
  mark.renderOrder = 1;
  return mark;
}

/** All points within a radius of a segment. */
function capsule(from: Point, to: Point, radius: number, colour: string): Mesh {
  const [a, b] = [new Vector3(...from), new Vector3(...to)];
  const along = b.clone().sub(a);
  const shape = new Mesh(new CapsuleGeometry(radius, along.length(), 6, 16), new MeshLambertMaterial({ color: colour }));
  shape.position.copy(a.add(b).multiplyScalar(0.5));
  // The geometry lies along y.
  if (along.length() > 0) shape.quaternion.setFromUnitVectors(new Vector3(0, 1, 0), along.normalize());
  return shape;
}

/** A thick line: a line of one pixel is lost on a wall of the same colour. */
function tube(from: Point, to: Point, radius: number, colour: string): Mesh {
  const [a, b] = [new Vector3(...from), new Vector3(...to)];
  const along = b.clone().sub(a).normalize();
  const side = new Vector3(0, 0, 1).cross(along);
  if (side.length() < 0.1) side.set(1, 0, 0);
  side.normalize();
  const other = along.clone().cross(side);
  const points: Point[] = [];
  const corners = 5;
  for (const end of [a, b]) {
    for (let turn = 0; turn < corners; turn++) {
      const angle = (2 * Math.PI * turn) / corners;
      const point = end.clone().addScaledVector(side, radius * Math.cos(angle)).addScaledVector(other, radius * Math.sin(angle));
      points.push([point.x, point.y, point.z]);
    }
  }
  const index: number[] = [];
  for (let turn = 0; turn < corners; turn++) {
    const next = (turn + 1) % corners;
    index.push(turn, next, corners + turn, next, corners + next, corners + turn);
  }
  return new Mesh(geometry(points, index), new MeshLambertMaterial({ color: colour, emissive: colour, emissiveIntensity: 0.25 }));
}
