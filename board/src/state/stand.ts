import {
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Float32BufferAttribute,
  HemisphereLight,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  Scene,
  SphereGeometry,
  Triangle,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import { LineMaterial } from "three/addons/lines/LineMaterial.js";
import { LineSegments2 } from "three/addons/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
import type { BodyLine, Panel, Worn } from "../wire/body.ts";
import type { Point } from "../wire/types.ts";
import { onPaper, type Place3 } from "./dressed.ts";

const PAPER = ["#fdf8ec", "#f3e9d2", "#f8f1df", "#ece0c6", "#f6ecd8", "#efe5cf"];
const COLOURS = { paper: "#f7f2e8", skin: "#cfb8a2", graphite: "#2c2926", soft: "#5d574f", red: "#97382e", wash: "#e9b8a8", over: "#f0d3a8" };
const SIGHT = 22; // degrees from bottom to top of the picture
const TILT = 1.2; // radians at most, up or down

/** What is chosen or under the hand, as the body shows it. */
export interface Lit {
  piece: string | null;
  edges: { piece: string; line: string }[];
  over: string | null;
  places: Place3[];
  /** Where findings lie; the one that is pointed at is large. */
  found: { at: Place3; lit: boolean }[];
}

/** The wearer with the garment, drawn when something has changed and at no other time. */
export class Stand {
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #camera = new PerspectiveCamera(SIGHT, 1, 50, 20000);
  readonly #sun = new DirectionalLight("#fff6e8", 1.6);
  readonly #panels: { mesh: Mesh<BufferGeometry, MeshLambertMaterial>; panel: Panel; colour: string }[] = [];
  readonly #edges: BodyLine[];
  readonly #marks: Mesh<SphereGeometry, MeshBasicMaterial>[] = [];
  readonly #lines: LineMaterial[] = [];
  readonly #middle: Vector3;
  readonly #height: number;
  readonly #thick: number;
  #lit: LineSegments2 | null = null;
  #frame = 0;

  /** `thick`: pixels of a seam line. */
  constructor(canvas: HTMLCanvasElement, worn: Worn, thick: number) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: true });
    this.#renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.#scene.background = new Color(COLOURS.paper);
    const sky = new HemisphereLight("#fffaf0", "#b9a58e", 1.5);
    sky.position.set(0, 0, 1);
    this.#scene.add(sky, this.#sun);
    this.#edges = worn.lines.filter((line) => line.kind === "edge");
    this.#thick = thick;
    const torso = new Mesh(geometryOf(worn.torso.points, worn.torso.triangles), new MeshLambertMaterial({ color: COLOURS.skin, side: DoubleSide }));
    this.#scene.add(torso);
    const order = [...new Set(worn.panels.map((panel) => panel.piece))];
    for (const panel of worn.panels) {
      const colour = PAPER[order.indexOf(panel.piece) % PAPER.length]!;
      const paper = new MeshLambertMaterial({ color: colour, side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 });
      const mesh = new Mesh(geometryOf(panel.body, panel.triangles), paper);
      this.#panels.push({ mesh, panel, colour });
      this.#scene.add(mesh);
    }
    const levels = worn.lines.filter((line) => line.kind === "level");
    this.#scene.add(this.#drawn(this.#edges, COLOURS.graphite, thick));
    this.#scene.add(this.#drawn(levels.filter((line) => line.line !== "waist"), COLOURS.soft, thick * 0.5, true));
    this.#scene.add(this.#drawn(levels.filter((line) => line.line === "waist"), COLOURS.red, thick * 0.7));
    torso.geometry.computeBoundingBox();
    const box = torso.geometry.boundingBox!;
    this.#middle = box.getCenter(new Vector3());
    this.#height = box.max.z - box.min.z;
  }

  size(width: number, height: number): void {
    this.#renderer.setSize(width, height, false);
    this.#camera.aspect = width / Math.max(1, height);
    this.#camera.updateProjectionMatrix();
    for (const line of this.#lines) line.resolution.set(width, height);
    this.draw();
  }

  /** Look from `round` radians to the wearer's left of the front, `up` radians from above, `closer` times as near. */
  look(round: number, up: number, closer: number): void {
    const tilt = Math.max(-TILT, Math.min(TILT, up));
    const reach = (0.62 * this.#height) / Math.tan((SIGHT * Math.PI) / 360) / closer;
    const away = new Vector3(-Math.sin(round) * Math.cos(tilt), Math.cos(round) * Math.cos(tilt), Math.sin(tilt));
    this.#camera.up.set(0, 0, 1);
    this.#camera.position.copy(this.#middle).addScaledVector(away, reach);
    this.#camera.lookAt(this.#middle);
    // The light comes from over the shoulder of whoever looks, so that folds of the shape are seen from everywhere.
    this.#sun.position.copy(away).add(new Vector3(0, 0, 0.7)).addScaledVector(new Vector3(away.y, -away.x, 0), 0.8);
    this.draw();
  }

  show(lit: Lit): void {
    for (const { mesh, panel, colour } of this.#panels) {
      mesh.material.color.set(panel.piece === lit.piece ? COLOURS.wash : panel.piece === lit.over ? COLOURS.over : colour);
    }
    if (this.#lit) {
      this.#scene.remove(this.#lit);
      this.#lit.geometry.dispose();
    }
    const chosen = this.#edges.filter((line) => lit.edges.some((edge) => edge.piece === line.piece && edge.line === line.line));
    this.#lit = chosen.length > 0 ? this.#drawn(chosen, COLOURS.red, this.#thick * 2.2) : null;
    if (this.#lit) this.#scene.add(this.#lit);
    const marked = [
      ...lit.places.map((at) => ({ at, size: 1, colour: COLOURS.red })),
      ...lit.found.map(({ at, lit }) => ({ at, size: lit ? 1.8 : 1, colour: lit ? COLOURS.red : COLOURS.graphite })),
    ];
    while (this.#marks.length < marked.length) {
      const mark = new Mesh(new SphereGeometry(this.#thick * 2.6, 16, 12), new MeshBasicMaterial());
      this.#marks.push(mark);
      this.#scene.add(mark);
    }
    this.#marks.forEach((mark, k) => {
      const one = marked[k];
      mark.visible = one !== undefined;
      if (!one) return;
      mark.position.set(...one.at);
      mark.scale.setScalar(one.size);
      mark.material.color.set(one.colour);
    });
    this.draw();
  }

  /** The panel and the place of its paper that a point of the picture shows; x and y are shares of it, from its top left. */
  under(x: number, y: number): { piece: string; at: Point } | null {
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2(2 * x - 1, 1 - 2 * y), this.#camera);
    const hit = ray.intersectObjects(this.#panels.map((each) => each.mesh), false)[0];
    const panel = this.#panels.find((each) => each.mesh === hit?.object)?.panel;
    if (!hit?.face || !panel || typeof hit.faceIndex !== "number") return null;
    const corner = (k: number) => new Vector3().fromArray(panel.body, 3 * k);
    const shares = Triangle.getBarycoord(hit.point, corner(hit.face.a), corner(hit.face.b), corner(hit.face.c), new Vector3());
    return shares && { piece: panel.piece, at: onPaper(panel, hit.faceIndex, [shares.x, shares.y, shares.z]) };
  }

  /** Once, with the next picture of the screen. */
  draw(): void {
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      this.#renderer.render(this.#scene, this.#camera);
    });
  }

  close(): void {
    cancelAnimationFrame(this.#frame);
    this.#scene.traverse((thing) => {
      if (thing instanceof Mesh) thing.geometry.dispose();
    });
    this.#renderer.dispose();
  }

  #drawn(lines: readonly BodyLine[], colour: string, width: number, dashed = false): LineSegments2 {
    const pairs: number[] = [];
    for (const { points } of lines) for (let k = 3; k < points.length; k += 3) pairs.push(...points.slice(k - 3, k + 3));
    const material = new LineMaterial({ color: new Color(colour).getHex(), linewidth: width, dashed, dashSize: 8, gapSize: 6 });
    this.#renderer.getSize(material.resolution);
    this.#lines.push(material);
    const drawn = new LineSegments2(new LineSegmentsGeometry().setPositions(pairs), material);
    if (dashed) drawn.computeLineDistances();
    return drawn;
  }
}

function geometryOf(points: number[], triangles: number[]): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new Float32BufferAttribute(points, 3));
  geometry.setIndex(triangles);
  geometry.computeVertexNormals();
  return geometry;
}
