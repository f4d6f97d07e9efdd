/** What the page and its server say to each other, as docs/board.md agrees it. Geometry is in mm, y up. */

export type Point = [number, number];

export interface Edge {
  id: string;
  line: string;
  kind: "seam" | "finished" | "fold" | "opening";
  d: string;
}

export interface InsideLine {
  id: string;
  kind: "level" | "dart" | "fold" | "stitch" | "guide";
  d: string;
}

export interface Mark {
  id: string;
  kind: "point" | "drill" | "button" | "eyelet";
  at: Point;
}

export interface Notch {
  from: Point;
  to: Point;
  count: number;
}

export type Layer = "outer" | "facing" | "lining" | "interfacing";

export interface Piece {
  id: string;
  label: string;
  code: string;
  layer: Layer;
  hand: "right" | "left" | "both";
  extent: "half_on_fold" | "one_side" | "whole";
  edges: Edge[];
  cut: string;
  inside: InsideLine[];
  marks: Mark[];
  grain: [Point, Point] | null;
  notches: Notch[];
  text: string[];
  text_at: Point;
  box: [number, number, number, number];
  place: Point;
}

export interface Handle {
  step: string;
  name: string;
  label: string;
  piece: string;
  at: Point;
  way: [Point, Point];
  anywhere: boolean;
}

export interface Span {
  piece: string;
  edge: string;
  start: number;
  end: number;
  hand: string;
}

export interface Seam {
  id: string;
  kind: string;
  a: Span[];
  b: Span[];
  lengths: [number, number];
  ease: number;
}

/** A field of the whole garment by its way, or a step by its uid, with the field of it that is meant. */
export interface Lead {
  field?: string;
  step?: string;
}

export interface Finding {
  code: string;
  severity: "error" | "warning" | "advice";
  subject: string;
  message: string;
  remedy: string;
  piece?: string | null;
  at?: Point | null;
  /** What a button beside it does, where that is certain. */
  apply?: string;
  /** The field that it speaks of: of the whole garment, or of a step. */
  lead?: Lead;
}

export interface Outcome {
  step: string;
  kind: string;
  label: string;
  state: string;
  reason: string | null;
  /** What it leaves no room for, and what to do. */
  cuts_off?: string;
  /** Its field at fault, or empty. */
  field?: string;
  /** What its fields come to where they are left out, mm; not told while something is dragged. */
  usual?: { [field: string]: number };
}

export type Value = string | number | boolean | null | Value[] | { [name: string]: Value };

/** A step as a design document has it. */
export interface Step {
  kind: string;
  uid: string;
  [field: string]: Value;
}

export interface Design {
  format: "panelwright-design/1";
  ref: string;
  title: string;
  steps?: Step[];
  /** The traced block that it lies on, trued or as it was drawn. */
  traced?: { ref: string; true?: boolean };
  [part: string]: unknown;
}

/** A line of the outer pieces, and what a design may call it. */
export interface LineName {
  key: string;
  label: string;
}

/** Where a seam of the block crosses a level now, mm along the level from its centre. */
export interface SeamPlace {
  line: string;
  level: string;
  distance: number;
}

export interface Pattern {
  say: "pattern";
  id?: number;
  dragging: boolean;
  design: Design;
  wearer: string;
  version: number;
  can_undo: boolean;
  can_redo: boolean;
  outcomes: Outcome[];
  pieces: Piece[];
  handles: Handle[];
  seams: Seam[];
  lines: LineName[];
  levels: unknown[];
  seam_places: SeamPlace[];
  /** What the maker calls the lines that edges lie on, by their ids; not told while something is dragged. */
  line_names: Record<string, string>;
  /** Kinds of step that the block cannot carry, and why. */
  not_possible: Record<string, string>;
  findings: Finding[];
}

/**
 * The pattern as the server tells it: while something is dragged, unchecked and without what its handles run along and
 * where the words on pieces stand.
 */
export interface ToldPattern extends Omit<Pattern, "pieces" | "handles" | "seam_places" | "line_names" | "findings"> {
  pieces: (Omit<Piece, "text_at"> & Partial<Pick<Piece, "text_at">>)[];
  handles: (Omit<Handle, "way"> & Partial<Pick<Handle, "way">>)[];
  seam_places?: SeamPlace[];
  line_names?: Record<string, string>;
  findings: Finding[] | null;
}

export interface Refused {
  say: "refused";
  id?: number;
  message: string;
  where: string | null;
}

export interface Changed {
  say: "changed";
  kind: "wearer" | "design" | "trace" | "fitting" | "lay" | "group";
}

/** The line in the hand, ahead of the pieces that will be cut along it. */
export interface HeldLine {
  say: "line";
  id?: number;
  /** The handle, and where it is now on its piece. */
  step: string;
  handle: string;
  piece: string;
  at: Point;
  /** Paths by piece. */
  pieces: Record<string, string>;
}

export type Said = ToldPattern | Refused | Changed | HeldLine;

export interface Choice {
  value: string;
  label: string;
  /** How else a design may say it. */
  also?: Value[];
}

export interface Field {
  name: string;
  label: string;
  about?: string;
  type: "length" | "number" | "whole" | "choice" | "height" | "switch" | "text" | "points" | "place" | "list" | "widths";
  unit?: "cm" | "mm";
  least?: number;
  most?: number;
  choices?: Choice[];
  /** Field -> values: this one acts only while each of those has one of its values. */
  when?: Record<string, Value[]>;
  /** What a list, points or a place hold. */
  of?: "text" | Field[];
  optional: boolean;
  default?: Value;
  /** What holds where it is left out: in words, as a length, or what another field says. */
  usual?: string;
  usual_mm?: number;
  like?: string;
}

export interface StepKind {
  label: string;
  about: string;
  fields: Field[];
}

/** Fields that stand together; their names are their ways in the design, `block.ease_cm.bust`. */
export interface FieldGroup {
  name: string;
  label: string;
  about: string;
  fields: Field[];
}

export interface Measurement {
  name: string;
  label: string;
  how: string;
  required: boolean;
  level?: string;
  least_mm: number;
  most_mm: number;
}

export interface Named {
  id?: string;
  name?: string;
  label?: string;
}

export interface Vocabulary {
  measurements: Measurement[];
  levels: (string | Named)[];
  lines: (string | Named)[];
  steps: Record<string, StepKind>;
  garment: FieldGroup[];
  sizes: { ref: string; bust_cm: number }[];
}

export interface WearerCard {
  ref: string;
  version: number;
  neutral: boolean;
}

export interface DesignCard {
  ref: string;
  title: string;
  version: number;
  steps: number;
  /** The traced block that it lies on. */
  traced: string | null;
}

/** A block of the maker's own that is traced over a picture. */
export interface TraceCard {
  ref: string;
  title: string;
  version: number;
  pieces: number;
}

export interface Workroom {
  wearers: WearerCard[];
  designs: DesignCard[];
  traces: TraceCard[];
  groups: GroupCard[];
  stand: string;
}

/** A group that is bought for. */
export interface GroupCard {
  ref: string;
  title: string;
  version: number;
}

export interface Saved<Document> {
  document: Document;
  version: number;
  can_undo: boolean;
  can_redo: boolean;
}
