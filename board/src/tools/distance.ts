import type { Point } from "../wire/types.ts";

export const apart = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

export const middle = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
