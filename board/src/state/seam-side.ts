import type { EdgeRef, TracedSeam } from "../wire/trace.ts";

/** One side of a confirmed seam: one edge, or several that lie one after another along the other side. */
type Side = TracedSeam["a"];

export const edgesOf = (side: Side): EdgeRef[] => (Array.isArray(side) ? side : [side]);

export const edgesOfBoth = ({ a, b }: TracedSeam): EdgeRef[] => [...edgesOf(a), ...edgesOf(b)];

/** A side as it is written: one edge alone, several as a list. */
export const sideOf = (edges: readonly EdgeRef[]): Side => (edges.length === 1 ? edges[0]! : [...edges]);

/** The seam with its edges named anew. */
export const renamed = (seam: TracedSeam, name: (ref: EdgeRef) => EdgeRef): TracedSeam => ({ ...seam, a: sideOf(edgesOf(seam.a).map(name)), b: sideOf(edgesOf(seam.b).map(name)) });
