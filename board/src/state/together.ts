import type { Piece, Point } from "../wire/types.ts";
import type { Box } from "./camera.svelte.ts";

const BETWEEN = 50;
const ROOM = 1200;

/**
 * One place for each piece that holds through all stages of a garment: pieces with a waist in a row, their waists at
 * one height, and the others below, in rows of their own.
 */
export function together(stages: readonly (readonly Piece[])[]): Map<string, Point> {
  const boxes = new Map<string, Box>();
  const upright = new Set<string>();
  for (const piece of stages.flat()) {
    boxes.set(piece.id, around(boxes.get(piece.id), piece.box));
    if (piece.inside.some((inside) => inside.id === "waist")) upright.add(piece.id);
  }
  const places = new Map<string, Point>();
  const ids = [...boxes.keys()].sort((a, b) => boxes.get(a)![0] - boxes.get(b)![0]);
  const panels = ids.filter((id) => upright.has(id));
  let x = 0;
  for (const id of panels) {
    const [left, , right] = boxes.get(id)!;
    places.set(id, [x - left, 0]);
    x += right - left + BETWEEN;
  }
  let top = Math.min(0, ...panels.map((id) => boxes.get(id)![1])) - BETWEEN;
  let lowest = top;
  const room = Math.max(x - BETWEEN, panels.length > 0 ? 0 : ROOM);
  x = 0;
  for (const id of ids.filter((other) => !upright.has(other))) {
    const [left, bottom, right, high] = boxes.get(id)!;
    if (x > 0 && x + right - left > room) {
      x = 0;
      top = lowest;
    }
    places.set(id, [x - left, top - high]);
    lowest = Math.min(lowest, top - (high - bottom) - BETWEEN);
    x += right - left + BETWEEN;
  }
  return places;
}

function around(known: Box | undefined, [left, bottom, right, top]: Box): Box {
  if (!known) return [left, bottom, right, top];
  return [Math.min(known[0], left), Math.min(known[1], bottom), Math.max(known[2], right), Math.max(known[3], top)];
}
