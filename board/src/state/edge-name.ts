import type { Edge, Piece } from "../wire/types.ts";
import { words } from "../words.ts";

/** What an edge of a piece is called by the line that it lies on, `top edge`; edges that would be called alike have a number. */
export function edgeName(piece: Pick<Piece, "label" | "edges">, edge: Edge, lines: Readonly<Record<string, string>>): string {
  const name = plain(piece.label, edge, lines);
  const same = piece.edges.filter((other) => plain(piece.label, other, lines) === name);
  if (same.length < 2) return name;
  return `${name.replace(/(edge|end)s$/, "$1")} ${same.findIndex((other) => other.id === edge.id) + 1}`;
}

/** Without the name of the piece, where the line has it too: `Strap, front end` is the front end of a strap. */
function plain(piece: string, { line, kind }: Edge, lines: Readonly<Record<string, string>>): string {
  const label = lines[line];
  if (!label) return words.flat.show.edge[kind];
  const [of, what] = label.split(", ");
  if (what && of && piece.toLowerCase().startsWith(of.toLowerCase())) return what;
  return label.replaceAll(",", "").replace(/^./, (first) => first.toLowerCase());
}
