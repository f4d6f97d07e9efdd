import type { Edge, Piece, Point } from "../wire/types.ts";
import { offLine, walked } from "./curves.ts";
import { line } from "./path.ts";

/** What a step does to a piece: lines that are new and lines that went, as paths in the piece's own mm. */
export interface Change {
  piece: string;
  fresh: string[];
  gone: string[];
  /** Marks that are new. */
  marks: Point[];
}

/** A line is the same if it lies no farther off than this, mm. */
const SAME = 0.5;
const STEP = 2;

/** What is different between the pieces before a step and after it. Pieces are known by their ids. */
export function changes(before: readonly Piece[], after: readonly Piece[]): Change[] {
  const ids = [...new Set([...before, ...after].map((piece) => piece.id))];
  const of = (pieces: readonly Piece[], id: string) => pieces.find((piece) => piece.id === id);
  return ids
    .map((id) => changed(id, of(before, id), of(after, id)))
    .filter((change) => change.fresh.length + change.gone.length + change.marks.length > 0);
}

function changed(piece: string, before: Piece | undefined, after: Piece | undefined): Change {
  const had = new Set(before?.marks.map((mark) => `${mark.kind} ${mark.at.map(Math.round).join()}`));
  return {
    piece,
    fresh: [...beyond(edges(after), edges(before)), ...opened(before, after), ...beyond(inner(after), inner(before))],
    gone: [...beyond(edges(before), edges(after)), ...beyond(inner(before), inner(after))],
    marks: (after?.marks ?? []).filter((mark) => !had.has(`${mark.kind} ${mark.at.map(Math.round).join()}`)).map((mark) => mark.at),
  };
}

const edges = (piece: Piece | undefined, which: (edge: Edge) => boolean = () => true): string[] => piece?.edges.filter(which).map((edge) => edge.d) ?? [];
const inner = (piece: Piece | undefined): string[] => piece?.inside.map((inside) => inside.d) ?? [];

/** Edges that stay where they are and open from now on. */
function opened(before: Piece | undefined, after: Piece | undefined): string[] {
  const open = (piece: Piece | undefined, is: boolean) => edges(piece, (edge) => (edge.kind === "opening") === is);
  return open(after, true).filter((d) => !open(before, true).includes(d) && beyond([d], open(before, false)).length === 0);
}

/** The stretches of some lines that no other line covers. */
function beyond(lines: readonly string[], others: readonly string[]): string[] {
  const same = new Set(others);
  const walks = others.map((d) => walked(d, STEP));
  return lines.filter((d) => !same.has(d)).flatMap((d) => stretches(d, walks));
}

function stretches(d: string, others: Point[][]): string[] {
  const points = walked(d, STEP);
  const boxes = others.map((other) => ({ other, box: boxAround(other) }));
  const found: string[] = [];
  let open: Point[] = [];
  const close = () => {
    if (open.length > 2) found.push(line(...open));
    open = [];
  };
  for (const point of points) {
    const covered = boxes.some(({ other, box }) => within(box, point) && offLine(other, point) <= SAME);
    if (covered) close();
    else open.push(point);
  }
  close();
  return found;
}

type Around = [number, number, number, number];

const boxAround = (points: readonly Point[]): Around => [
  Math.min(...points.map((point) => point[0])) - SAME,
  Math.min(...points.map((point) => point[1])) - SAME,
  Math.max(...points.map((point) => point[0])) + SAME,
  Math.max(...points.map((point) => point[1])) + SAME,
];

const within = ([left, bottom, right, top]: Around, [x, y]: Point): boolean => x >= left && x <= right && y >= bottom && y <= top;
