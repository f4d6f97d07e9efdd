import type { Point } from "../wire/types.ts";

type Box = [number, number, number, number];

/** A piece as it lies before a hand moves it. */
export interface Lying {
  outline: Point[];
  box: Box;
  on_fold: boolean;
}

/** Where a hand put it: turned round about its middle if so, then shifted, mm. */
export interface Move {
  turned: boolean;
  x: number;
  y: number;
}

export interface Cloth {
  width_mm: number;
  /** Least distance of two pieces. */
  spacing_mm: number;
  pieces: Lying[];
}

/** The move of a piece, by its name and copy. */
export interface NamedMove extends Move {
  piece: string;
  number: number;
}

export const STILL: Move = { turned: false, x: 0, y: 0 };
const STEP = 3; // mm: what a piece is pushed at once, so that it jumps over nothing
const MOST_STEPS = 120;
const FINER = 6; // halvings of the last step
const NOTHING = 1e-6;
const ROOM = 4; // mm between the places that are tried for a piece that was turned
const REACH = 60;

/** Where a piece went, if it went anywhere. */
export const moveOf = ({ piece, number }: { piece: string; number: number }, moves: NamedMove[]): Move | undefined =>
  moves.find((move) => move.piece === piece && move.number === number);

/** One move more; of the piece that was moved last, a move that goes on. */
export function withMove(moves: NamedMove[], next: NamedMove): NamedMove[] {
  const last = moves.at(-1);
  const goesOn = last !== undefined && last.piece === next.piece && last.number === next.number;
  return [...(goesOn ? moves.slice(0, -1) : moves), next];
}

/** The outline where the hand put it; on the fold a piece is turned over, so that its edge stays there. */
export function placed({ outline, box, on_fold }: Lying, { turned, x, y }: Move): Point[] {
  const [sumX, sumY] = [box[0] + box[2], box[1] + box[3]];
  return outline.map(([px, py]) => [(turned ? sumX - px : px) + x, (turned && !on_fold ? sumY - py : py) + y]);
}

export const boxOf = ({ box }: Lying, { x, y }: Move): Box => [box[0] + x, box[1] + y, box[2] + x, box[3] + y];

/** How far the pieces reach along the cloth. */
export const lengthOf = (cloth: Cloth, moves: Move[]): number => Math.max(0, ...cloth.pieces.map((piece, k) => boxOf(piece, moves[k] ?? STILL)[2]));

/** Whether a piece may lie so: on the cloth, on the fold if it belongs there, and clear of every other piece. */
export function isFree(cloth: Cloth, moves: Move[], index: number, to: Move): boolean {
  const piece = cloth.pieces[index]!;
  const box = boxOf(piece, to);
  if (box[0] < -NOTHING || box[1] < Math.min(0, piece.box[1]) - NOTHING || box[3] > Math.max(cloth.width_mm, piece.box[3]) + NOTHING) return false;
  if (piece.on_fold && Math.abs(to.y) > NOTHING) return false;
  let own: Point[] | null = null;
  return cloth.pieces.every((other, k) => {
    if (k === index) return true;
    const move = moves[k] ?? STILL;
    if (apart(box, boxOf(other, move), cloth.spacing_mm)) return true;
    own ??= placed(piece, to);
    return areApart(own, placed(other, move), cloth.spacing_mm);
  });
}

/** The move as far as it goes: straight on, then along whatever is in the way. */
export function pushed(cloth: Cloth, moves: Move[], index: number, to: Move): Move {
  const from = moves[index] ?? STILL;
  const aim = cloth.pieces[index]!.on_fold ? { ...to, y: 0 } : to;
  const straight = walked(cloth, moves, index, from, aim);
  const along = walked(cloth, moves, index, straight, { ...straight, x: aim.x });
  return walked(cloth, moves, index, along, { ...along, y: aim.y });
}

/** The piece turned round, as near as there is room for it; null where there is none. */
export function turnedRound(cloth: Cloth, moves: Move[], index: number): Move | null {
  const from = moves[index] ?? STILL;
  const tries: Move[] = [];
  for (let x = -REACH; x <= REACH; x += ROOM) {
    for (let y = -REACH; y <= REACH; y += ROOM) tries.push({ turned: !from.turned, x: from.x + x, y: cloth.pieces[index]!.on_fold ? 0 : from.y + y });
  }
  tries.sort((a, b) => Math.hypot(a.x - from.x, a.y - from.y) - Math.hypot(b.x - from.x, b.y - from.y));
  return tries.find((to) => isFree(cloth, moves, index, to)) ?? null;
}

function walked(cloth: Cloth, moves: Move[], index: number, from: Move, to: Move): Move {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.hypot(dx, dy);
  if (long < NOTHING) return from;
  const steps = Math.min(MOST_STEPS, Math.ceil(long / STEP));
  const at = (share: number): Move => ({ ...from, x: from.x + dx * share, y: from.y + dy * share });
  let free = 0;
  for (let k = 1; k <= steps && isFree(cloth, moves, index, at(k / steps)); k++) free = k / steps;
  if (free === 1) return at(1);
  let blocked = Math.min(1, free + 1 / steps);
  for (let k = 0; k < FINER; k++) {
    const middle = (free + blocked) / 2;
    if (isFree(cloth, moves, index, at(middle))) free = middle;
    else blocked = middle;
  }
  return at(free);
}

const apart = (a: Box, b: Box, by: number): boolean => a[0] - by >= b[2] || b[0] - by >= a[2] || a[1] - by >= b[3] || b[1] - by >= a[3];

/** Whether two outlines keep a distance: none inside the other, and no two edges nearer. */
function areApart(a: Point[], b: Point[], by: number): boolean {
  if (holds(a, b[0]!) || holds(b, a[0]!)) return false;
  const edges = b.map((end, k) => edge(b[(k + b.length - 1) % b.length]!, end));
  return a.every((end, k) => {
    const own = edge(a[(k + a.length - 1) % a.length]!, end);
    return edges.every((other) => apart(own.box, other.box, by) || distance(own, other) >= by);
  });
}

interface Edge {
  start: Point;
  end: Point;
  box: Box;
}

const edge = (start: Point, end: Point): Edge => ({
  start,
  end,
  box: [Math.min(start[0], end[0]), Math.min(start[1], end[1]), Math.max(start[0], end[0]), Math.max(start[1], end[1])],
});

function distance(a: Edge, b: Edge): number {
  if (cross(a, b)) return -1;
  return Math.min(toEdge(a.start, b), toEdge(a.end, b), toEdge(b.start, a), toEdge(b.end, a));
}

const side = ({ start, end }: Edge, [x, y]: Point): number => (end[0] - start[0]) * (y - start[1]) - (end[1] - start[1]) * (x - start[0]);

const cross = (a: Edge, b: Edge): boolean => side(a, b.start) * side(a, b.end) < 0 && side(b, a.start) * side(b, a.end) < 0;

function toEdge([x, y]: Point, { start, end }: Edge): number {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - start[0]) * dx + (y - start[1]) * dy) / long));
  return Math.hypot(x - start[0] - share * dx, y - start[1] - share * dy);
}

function holds(outline: Point[], [x, y]: Point): boolean {
  let inside = false;
  outline.forEach(([ax, ay], k) => {
    const [bx, by] = outline[(k + outline.length - 1) % outline.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  });
  return inside;
}
