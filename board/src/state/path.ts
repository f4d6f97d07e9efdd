import type { Point } from "../wire/types.ts";

const NUMBER = /-?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi;

/** Where an SVG path of absolute moves, lines and curves begins and ends. */
export function ends(d: string): [Point, Point] {
  const numbers = (d.match(NUMBER) ?? []).map(Number);
  const [x = 0, y = 0] = numbers;
  return [
    [x, y],
    [numbers.at(-2) ?? x, numbers.at(-1) ?? y],
  ];
}

/** A polyline as an SVG path. */
export const line = (...points: Point[]): string => "M" + points.map(([x, y]) => `${x} ${y}`).join("L");

/** The place `along` of the way from a to b, and `beside` mm to the left of it. */
export function beside([ax, ay]: Point, [bx, by]: Point, along: number, beside: number): Point {
  const [dx, dy] = [bx - ax, by - ay];
  const length = Math.hypot(dx, dy) || 1;
  return [ax + along * dx - (beside * dy) / length, ay + along * dy + (beside * dx) / length];
}

/** Two strokes that make an arrow's head at b, of the way from a to b; `size` in mm. */
export function arrowHead(a: Point, b: Point, size: number): string {
  const share = 1 - size / (Math.hypot(b[0] - a[0], b[1] - a[1]) || 1);
  return line(beside(a, b, share, size / 2.6), b, beside(a, b, share, -size / 2.6));
}

/** The bracket that says: lay this edge on the fold. The piece lies on the left of a to b. */
export function foldBracket(a: Point, b: Point, depth: number): string {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const inset = Math.min(0.3, Math.max(0.12, 30 / (length || 1)));
  const corners = [beside(a, b, inset, depth), beside(a, b, 1 - inset, depth)] as const;
  const feet = [beside(a, b, inset, 1), beside(a, b, 1 - inset, 1)] as const;
  const head = depth * 0.45;
  return line(feet[0], corners[0], corners[1], feet[1]) + arrowHead(corners[0], feet[0], head) + arrowHead(corners[1], feet[1], head);
}

/** Ticks side by side, `apart` mm from one another. */
export function ticks(from: Point, to: Point, count: number, apart: number): string {
  return Array.from({ length: count }, (_, k) => {
    const aside = (k - (count - 1) / 2) * apart;
    return line(beside(from, to, 0, aside), beside(from, to, 1, aside));
  }).join("");
}
